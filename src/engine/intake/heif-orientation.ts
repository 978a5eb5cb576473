/** From stored to upright, right and down: [right to right, down to right, right to down, down to down]. */
type Turn = readonly [number, number, number, number];

/** What each Exif orientation does to a stored picture. Source: Exif (CIPA DC-008), tag 274. */
const TURNS: readonly Turn[] = [
  [1, 0, 0, 1],
  [-1, 0, 0, 1],
  [-1, 0, 0, -1],
  [1, 0, 0, -1],
  [0, 1, 1, 0],
  [0, -1, 1, 0],
  [0, -1, -1, 0],
  [0, 1, -1, 0],
];
const QUARTER_LEFT: Turn = [0, 1, -1, 0];
const TOP_AND_BOTTOM: Turn = [1, 0, 0, -1];
const LEFT_AND_RIGHT: Turn = [-1, 0, 0, 1];

/** A step of a still-picture file's own turning, in the order in which they are to be done. */
export type TurningStep =
  | { readonly kind: 'quarters-left'; readonly count: number }
  /** What is exchanged: 0 top and bottom, 1 left and right. */
  | { readonly kind: 'mirror'; readonly axis: number };

/**
 * The Exif orientation, 1 to 8, that does the same as a file's own steps.
 * Source: ISO/IEC 23008-12, 6.5.10 (irot: quarters against the clock) and 6.5.12 (imir), as remembered; held against a
 * library's files in the test.
 */
export function orientationOfSteps(steps: readonly TurningStep[]): number {
  let turn: Turn = TURNS[0]!;
  for (const step of steps) {
    if (step.kind === 'mirror') turn = after(step.axis === 0 ? TOP_AND_BOTTOM : LEFT_AND_RIGHT, turn);
    else for (let i = 0; i < step.count; i++) turn = after(QUARTER_LEFT, turn);
  }
  return 1 + TURNS.findIndex((each) => each.every((value, i) => value === turn[i]));
}

function after(second: Turn, [a, b, c, d]: Turn): Turn {
  const [e, f, g, h] = second;
  return [e * a + f * c, e * b + f * d, g * a + h * c, g * b + h * d].map(
    (value) => value + 0,
  ) as unknown as Turn;
}
