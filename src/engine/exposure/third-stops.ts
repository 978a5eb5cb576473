/**
 * The settings that cameras mark in thirds of a stop, each for an exact power of two: 1/125 s stands for 2^-7 s, f/5.6 for
 * 2^(5/2). Apertures agree with a published table of marks; times and speeds are common practice, from memory: no standard
 * of the marks was seen.
 */
export interface ThirdStops {
  readonly marks: readonly number[];
  /** Light that the first mark lets in, in thirds of a stop against 1 s, f/1 or ISO 100; each next mark a third more. */
  readonly firstThird: number;
}

const parts = (...of: number[]) => of.map((part) => 1 / part);

/** Seconds, from the shortest. */
export const SHUTTER_TIMES: ThirdStops = {
  marks: [
    ...parts(8000, 6400, 5000, 4000, 3200, 2500, 2000, 1600, 1250, 1000, 800, 640, 500, 400, 320, 250),
    ...parts(200, 160, 125, 100, 80, 60, 50, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4),
    ...[0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.3, 1.6, 2, 2.5, 3.2, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30],
  ],
  firstThird: -39,
};

/** f-numbers, from the smallest aperture: each next one lets in a third more. */
export const F_NUMBERS: ThirdStops = {
  marks: [
    ...[64, 57, 51, 45, 40, 36, 32, 29, 25, 22, 20, 18, 16, 14, 13, 11, 10, 9, 8, 7.1, 6.3, 5.6, 5, 4.5, 4],
    ...[3.5, 3.2, 2.8, 2.5, 2.2, 2, 1.8, 1.6, 1.4, 1.2, 1.1, 1],
  ],
  firstThird: -36,
};

export const ISO_SPEEDS: ThirdStops = {
  marks: [
    ...[50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200],
    ...[4000, 5000, 6400, 8000, 10_000, 12_800, 16_000, 20_000, 25_600],
  ],
  firstThird: -3,
};

/** Nearer than this a setting is the mark, whose exact value it then stands for; 1/128 s is none. */
const SAME_MARK = 0.012;

/** A setting changed to a mark. */
export interface MarkedChange {
  readonly from: number;
  readonly to: number;
  /** More light that this really lets in, in stops. */
  readonly stops: number;
}

/**
 * The mark that comes nearest to letting in so many stops more than a setting. `null` where the series ends before it;
 * `lightThirds` says what a setting that is no mark lets in.
 */
export function markedChange(
  from: number,
  stops: number,
  { marks, firstThird }: ThirdStops,
  lightThirds: (setting: number) => number,
): MarkedChange | null {
  const at = marks.findIndex((mark) => Math.abs(from / mark - 1) < SAME_MARK);
  const thirds = at < 0 ? lightThirds(from) : firstThird + at;
  const place = Math.round(thirds + 3 * stops) - firstThird;
  const to = marks[place];
  return to === undefined ? null : { from, to, stops: (firstThird + place - thirds) / 3 };
}

/** Seconds, for so many stops more light. */
export function shutterChange(seconds: number, stops: number): MarkedChange | null {
  return markedChange(seconds, stops, SHUTTER_TIMES, (time) => 3 * Math.log2(time));
}

export function apertureChange(fNumber: number, stops: number): MarkedChange | null {
  return markedChange(fNumber, stops, F_NUMBERS, (f) => -6 * Math.log2(f));
}

export function isoChange(iso: number, stops: number): MarkedChange | null {
  return markedChange(iso, stops, ISO_SPEEDS, (speed) => 3 * Math.log2(speed / 100));
}

/** Stops to whole thirds, as dials click. */
export function inThirds(stops: number): number {
  return Math.round(stops * 3) / 3;
}
