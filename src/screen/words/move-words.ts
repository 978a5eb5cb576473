import { kelvinAside as kelvinOf, TOLD_AT_KELVIN } from '../../engine/kelvin-aside.ts';
import type { Move } from '../../engine/moves/move.ts';
import type { Setup } from '../../engine/setup.ts';
import { decimals, percent, stops } from './figures.ts';
import { type LengthUnit, lengthWords } from './length-words.ts';
import { directionWords } from './place-words.ts';
import { kelvinAside } from './warmth.ts';

/** A move as one says it across the set: what to do, and what it brings. */
export interface MoveSentence {
  readonly text: string;
  readonly brings: string | null;
  readonly caution: string | null;
}

/** Less than this reads "0.0 stop", and is nothing to be told. */
const LEAST_BROUGHT_EV = 0.05;

/** `moves` is the list that the move stands in. */
export function moveWords(
  move: Move,
  setup: Setup,
  unit: LengthUnit,
  moves: readonly Move[] = [move],
): MoveSentence {
  const bringsEv = move.bringsEv ?? 0;
  const brings =
    Math.abs(bringsEv) < LEAST_BROUGHT_EV
      ? null
      : `${bringsEv > 0 ? 'takes off' : 'adds'} ${stops(Math.abs(bringsEv))}`;
  const text = whatToDo(move, setup, unit);
  return {
    text: isAlternative(move, moves) ? `Or, if nothing can be moved, ${uncapital(text)}` : text,
    brings,
    caution: move.caution,
  };
}

/** Moves after which the light itself is more even; exposure and white balance leave it as it is. */
const CURES: readonly Move['kind'][] = [
  'slide-lamp',
  'lamp-distance',
  'turn-lamp',
  'balance-lamps',
  'add-diffusion',
  'block-stray',
];

/** Whether a move stands in its list for whoever cannot make the others: the even part framed, instead of a cure. */
export function isAlternative(move: Move, moves: readonly Move[]): boolean {
  return move.kind === 'frame-tighter' && moves.some(({ kind }) => CURES.includes(kind));
}

function whatToDo(move: Move, setup: Setup, unit: LengthUnit): string {
  switch (move.kind) {
    case 'slide-lamp': {
      const way = shift(move.rightMm, move.downMm, move.rightFrameWidths, move.downFrameWidths, unit);
      return `Slide ${head(move.lamp, setup)} ${way ?? toward(move.toward)}.`;
    }
    case 'turn-lamp': {
      const { aimRightMm, aimDownMm, aimRightFrameWidths, aimDownFrameWidths } = move;
      const way = shift(aimRightMm, aimDownMm, aimRightFrameWidths, aimDownFrameWidths, unit);
      return `Turn ${head(move.lamp, setup)} so that it aims ${way ?? `farther ${toward(move.toward)}`}.`;
    }
    case 'lamp-distance':
      return distanceWords(move.ratio, move.lamp, setup, unit);
    case 'balance-lamps': {
      const change = move.stops > 0 ? 'up' : 'down';
      return `Turn ${head(move.lamp, setup)} ${change} by ${stops(Math.abs(move.stops))}.`;
    }
    case 'gel':
      return `Put a gel of ${colourShift(move)} on ${head(move.lamp, setup)}; bring its power back to the same level.`;
    case 'lamp-colour':
      return `Set ${head(move.lamp, setup)} ${colourShift(move)}.`;
    case 'white-balance':
      return `Set the camera’s white balance so that the picture turns ${colourShift(move, kelvinSetting(move.miredShift))}.`;
    case 'add-diffusion':
      return 'Add a second layer of diffusion, well clear of the head.';
    case 'block-stray':
      return move.fromDeg === null
        ? 'Block the spill: flag it, or switch off the room’s light.'
        : `Block the spill that comes from ${fromSide(move.fromDeg)}: flag it, or switch it off.`;
    case 'frame-tighter': {
      const { left, top, right, bottom } = move;
      const sides = [
        ['left', left],
        ['right', 1 - right],
        ['top', top],
        ['bottom', 1 - bottom],
      ] as const;
      const cut = sides.filter(([, share]) => share >= 0.005);
      const words = cut.map(
        ([side, share], i) => `${percent(share)} ${i === 0 ? 'of the frame ' : ''}at the ${side}`,
      );
      return `Frame tighter: leave out ${listed(words)}.`;
    }
    case 'expose':
      return `Expose ${stops(Math.abs(move.stops))} ${move.stops < 0 ? 'less' : 'more'}.`;
  }
}

function head(lamp: number, { arrangement }: Setup): string {
  if (arrangement === 'two-lamps') return lamp === 0 ? 'the left light' : 'the right light';
  return arrangement === 'panel' ? 'the panel' : 'the light';
}

function toward(angleDeg: number | null): string {
  return angleDeg === null ? 'a little' : `${directionWords(angleDeg)}, a little at a time`;
}

function shift(
  rightMm: number | null,
  downMm: number | null,
  rightWidths: number | null,
  downWidths: number | null,
  unit: LengthUnit,
): string | null {
  const parts = [
    oneWay('right', 'left', rightMm, rightWidths, unit),
    oneWay('down', 'up', downMm, downWidths, unit),
  ].filter((part) => part !== null);
  return parts.length > 0 ? parts.join(' and ') : null;
}

function oneWay(
  positive: string,
  negative: string,
  mm: number | null,
  widths: number | null,
  unit: LengthUnit,
): string | null {
  const value = mm ?? widths;
  if (value === null || value === 0) return null;
  const length =
    mm === null ? `${decimals(Math.abs(value), 2)} of the frame’s width` : lengthWords(Math.abs(mm), unit);
  return `${length} ${value > 0 ? positive : negative}`;
}

function distanceWords(ratio: number | null, lamp: number, setup: Setup, unit: LengthUnit): string {
  const which = head(lamp, setup);
  if (ratio === null) return `Move ${which} farther away.`;
  const way = ratio > 1 ? 'farther away' : 'closer';
  const present = setup.lampDistanceMm[lamp] ?? null;
  const target = present === null ? '' : `, to ${lengthWords(present * ratio, unit)}`;
  return `Move ${which} ${way}: ${decimals(ratio, 2)} times its present distance${target}.`;
}

/**
 * Where the camera's kelvin setting goes for a picture so much warmer: the other way, since it names the light that
 * the camera is to take out. Its figure is that of the cast beside it, which is the shift turned round.
 */
function kelvinSetting(miredShift: number): string {
  const way = miredShift > 0 ? 'higher' : 'lower';
  const kelvin = kelvinOf(-miredShift);
  if (kelvin === null) return `its kelvin setting ${way}, as far as it goes`;
  const target = TOLD_AT_KELVIN + Math.sign(miredShift) * kelvin;
  return `its kelvin setting ${way}, to about ${target}\u00a0K where it stood at ${TOLD_AT_KELVIN}\u00a0K`;
}

function colourShift(
  { miredShift, duvShift }: { miredShift: number; duvShift: number },
  aside = kelvinAside(miredShift),
): string {
  const parts = [];
  if (Math.abs(miredShift) >= 0.5)
    parts.push(
      `${decimals(Math.abs(miredShift), 0)} mired ${miredShift > 0 ? 'warmer' : 'cooler'} (${aside})`,
    );
  if (Math.abs(duvShift) >= 0.00005)
    parts.push(`${decimals(Math.abs(duvShift), 4)} Duv ${duvShift > 0 ? 'greener' : 'more magenta'}`);
  return parts.length > 0 ? parts.join(' and ') : 'no further';
}

function uncapital(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

/** "a", "a and b", "a, b and c". */
function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

function fromSide(angleDeg: number): string {
  const way = directionWords(angleDeg);
  if (way === 'up') return 'above';
  if (way === 'down') return 'below';
  return `the ${way.replace('up ', 'top ').replace('down ', 'bottom ')}`;
}
