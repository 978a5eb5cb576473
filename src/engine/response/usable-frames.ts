import { quantile } from '../numeric/quantile.ts';
import { type BracketShot, badBracket, SHOOT_AGAIN } from './bracket-shot.ts';
import { baseStops } from './code-axis.ts';
import { type ExposureSteps, timeInWords } from './exposure-steps.ts';

/** A frame needs that many blocks that are neither clipped nor black, and two neighbours as many in common. */
const LEAST_BLOCKS = 16;
/** A step that shows as a smaller share of itself than this contradicts what is known of it. */
const LEAST_SHOWN = 0.25;
const MOST_SHOWN = 4;
/** Steps below this are not held against what they show. */
const TOLD_STOPS = 0.3;

export interface UsableFrames {
  readonly shots: readonly BracketShot[];
  readonly stops: readonly number[];
}

/** Frames in which anything can be compared, brightest first; those clipped or black all over are left out. */
export function usableFrames(shots: readonly BracketShot[], { stops }: ExposureSteps): UsableFrames {
  const order = shots
    .map((shot, i) => ({ shot, stops: stops[i]! }))
    .filter(({ shot }) => usableBlocks(shot) >= LEAST_BLOCKS)
    .toSorted((a, b) => b.stops - a.stops);
  return { shots: order.map(({ shot }) => shot), stops: order.map((frame) => frame.stops) };
}

/** @throws {@link EngineError} `bad-bracket` where too few are left. */
export function refuseUnusable(all: readonly BracketShot[], usable: UsableFrames, needed: number): void {
  if (usable.shots.length >= needed) return;
  const lost = all.filter((shot) => !usable.shots.includes(shot));
  const mean = (of: 'clippedShare' | 'blackShare') => {
    const shares = lost.flatMap(({ blocks }) => blocks.channels.map((channel) => channel[of]));
    return Math.round((100 * shares.reduce((sum, share) => sum + share, 0)) / shares.length);
  };
  throw badBracket(
    `${lost.length} of the ${all.length} frames ${lost.length === 1 ? 'shows' : 'show'} next to nothing that can be compared (${mean('clippedShare')} % of their pixels are clipped, ${mean('blackShare')} % black); ${needed} frames with light between the two ends are needed. Shoot ${mean('clippedShare') >= mean('blackShare') ? 'shorter' : 'longer'} times.`,
    { lost: lost.map(({ name }) => name) },
  );
}

/**
 * Holds each frame against the next darker one: with flash, for one, another shutter time changes nothing.
 *
 * @throws {@link EngineError} `bad-bracket`.
 */
export function refuseContradicted({ shots, stops }: UsableFrames, { by }: ExposureSteps): void {
  for (let i = 0; i + 1 < shots.length; i++) {
    const [bright, dark] = [shots[i]!, shots[i + 1]!];
    const asked = stops[i]! - stops[i + 1]!;
    const shown = shownStops(bright, dark);
    if (shown === null)
      throw badBracket(
        `${bright.name} and ${dark.name} are ${rounded(asked)} stops apart and have hardly a place in common that is neither clipped nor black in both; steps of one or two stops are needed. Add a frame between them.`,
        { names: [bright.name, dark.name] },
      );
    if (asked < TOLD_STOPS || (shown > LEAST_SHOWN * asked && shown < MOST_SHOWN * asked)) continue;
    const seen = `${bright.name} shows ${rounded(Math.abs(shown))} stop ${shown < 0 ? 'less' : 'more'} light than ${dark.name}`;
    throw badBracket(
      by === 'entered'
        ? `${seen}, where the steps entered say ${rounded(asked)} stops more. Enter the steps in the frames’ order, brighter frames with the larger number.`
        : `${seen}, where their shutter times (${timeInWords(bright)} and ${timeInWords(dark)}) say ${rounded(asked)} stops more: flash does not go by the shutter, or the light or the camera’s own settings changed. With flash, change its power between frames and enter the steps; else ${lower(SHOOT_AGAIN)}`,
      { names: [bright.name, dark.name], asked, shown },
    );
  }
}

/** Stops between two frames as sRGB's curve has them, the middle of what their common blocks show. */
function shownStops(bright: BracketShot, dark: BracketShot): number | null {
  const between: number[] = [];
  for (const [c, channel] of bright.blocks.channels.entries()) {
    const its = dark.blocks.channels[c]!.code;
    channel.code.forEach((code, block) => {
      const stops = baseStops(code) - baseStops(its[block]!);
      if (Number.isFinite(stops)) between.push(stops);
    });
  }
  return between.length < LEAST_BLOCKS ? null : quantile(between, 0.5);
}

function usableBlocks({ blocks }: BracketShot): number {
  return Math.max(
    ...blocks.channels.map(({ code }) => code.reduce((sum, value) => sum + (value > 0 ? 1 : 0), 0)),
  );
}

const rounded = (stops: number) => Math.round(stops * 10) / 10;
const lower = (sentence: string) => sentence.charAt(0).toLowerCase() + sentence.slice(1);
