import { type BracketShot, badBracket, SHOOT_AGAIN } from './bracket-shot.ts';
import type { BracketFacts } from './camera-response.ts';
import { exactTimes } from './marked-times.ts';

/** Less than this from the first frame to the last leaves the curve's slope to the noise. */
export const LEAST_STOPS = 2;
/** Marks of thirds add up to whole stops but for rounding. */
const ROUNDING_STOPS = 0.01;

export interface ExposureSteps {
  /** Of each frame against the most exposed one, which has 0. */
  readonly stops: readonly number[];
  readonly by: BracketFacts['stopsBy'];
}

/**
 * By how many stops the frames differ: as entered, or by their shutter times.
 *
 * @throws {@link EngineError} `bad-bracket`.
 */
export function exposureSteps(shots: readonly BracketShot[], entered?: readonly number[]): ExposureSteps {
  const raw = entered ? checkedSteps(shots, entered) : timesOf(shots);
  const most = Math.max(...raw);
  return { stops: raw.map((stops) => stops - most), by: entered ? 'entered' : 'shutter' };
}

/** @throws {@link EngineError} `bad-bracket` where the frames are too near each other in exposure. */
export function refuseNarrow(shots: readonly BracketShot[], { stops, by }: ExposureSteps): void {
  const span = -Math.min(...stops);
  if (span >= LEAST_STOPS - ROUNDING_STOPS) return;
  if (span < ROUNDING_STOPS)
    throw badBracket(
      `All ${shots.length} frames have the same exposure${by === 'shutter' ? ` (${timeInWords(shots[0]!)})` : ', as entered'}; frames of different exposure are needed, ${LEAST_STOPS} stops apart or more. ${by === 'shutter' ? FLASH_STEPS : SHOOT_AGAIN}`,
      { fromStops: 0 },
    );
  throw badBracket(
    `The frames are ${rounded(span)} stops apart from the least exposed to the most; ${LEAST_STOPS} stops or more are needed. Add frames of shorter and longer times.`,
    { fromStops: span },
  );
}

const FLASH_STEPS =
  'With flash, change its power between frames and enter the steps; else change the shutter time.';

function checkedSteps(shots: readonly BracketShot[], entered: readonly number[]): number[] {
  if (entered.length !== shots.length)
    throw badBracket(
      `${entered.length} exposure steps were entered for ${shots.length} frames; one for each frame is needed, in the frames’ order. Enter ${shots.length} numbers, such as ${example(shots.length)}.`,
      { entered: entered.length, frames: shots.length },
    );
  const odd = entered.find((stops) => typeof stops !== 'number' || !Number.isFinite(stops));
  if (odd !== undefined)
    throw badBracket(
      `One of the exposure steps is ${String(odd)}; a number of stops is needed. Enter ${shots.length} numbers, such as ${example(shots.length)}.`,
    );
  return [...entered];
}

const example = (frames: number) => Array.from({ length: frames }, (_, i) => (i === 0 ? 0 : -i)).join(', ');

function timesOf(shots: readonly BracketShot[]): number[] {
  const silent = shots.filter(({ exposure }) => !exposure?.seconds);
  if (silent.length > 0)
    throw badBracket(
      `${silent.length === shots.length ? 'None of the frames says' : `${silent[0]!.name} does not say`} how long it was exposed; the steps between the frames must be known. Hand in the camera’s own files, whose Exif holds the shutter time, or enter the steps in stops.`,
      { silent: silent.map(({ name }) => name) },
    );
  return exactTimes(shots.map(({ exposure }) => exposure!.seconds!));
}

/** As photographers write it: 1/125 s, 0.8 s, 2 s. */
export function timeInWords({ exposure }: BracketShot): string {
  const seconds = exposure?.seconds;
  if (!seconds) return 'no time told';
  return seconds < 0.3 ? `1/${Math.round(1 / seconds)} s` : `${Math.round(seconds * 10) / 10} s`;
}

const rounded = (stops: number) => Math.round(stops * 100) / 100;
