import { quantile } from '../../numeric/quantile.ts';
import { type PlaneSums, planeSums, sumOver } from './plane-sums.ts';

/** Cells that the nearer and the farther windows on both sides of a place reach away from it, and along it. */
const NEAR = 5;
const FAR = 11;
const ALONG = 2;
/** How much of a change over the farther windows must have happened within the nearer ones to be a step. */
const SHARP_SHARE = 0.35;
/** Stops per cell from which no shadow rises. */
const STEEPEST_SHADOW = 0.08;
/** Robust deviations of noise that a step stands above, and the least step looked for, in stops. */
const ABOVE_NOISE = 5;
const LEAST_STEP = 0.01;
/** A normal's median absolute deviation as a share of its standard deviation. */
const MAD_OF_NORMAL = 0.6745;

/**
 * Marks (1) where a plane of stops steps rather than slopes. Means on both sides of a place differ by one amount
 * however wide the windows are where it steps, and by twice as much over windows twice as far where it slopes: so
 * twice the nearer difference less the farther one is the step alone.
 *
 * @param isQuiet - cells whose scatter counts as noise.
 */
export function markSteps(
  plane: Float32Array,
  columns: number,
  rows: number,
  isQuiet: (at: number) => boolean,
  into: Uint8Array,
): void {
  const sums = planeSums(plane, columns, rows);
  for (const turned of [false, true]) {
    const { step, far, near } = differences(sums, turned);
    const quiet: number[] = [];
    const stride = Math.max(1, Math.floor(step.length / 50_000));
    for (let at = 0; at < step.length; at += stride) if (isQuiet(at)) quiet.push(Math.abs(step[at]!));
    const noise = quiet.length > 0 ? quantile(quiet, 0.5) / MAD_OF_NORMAL : 0;
    const least = Math.max(LEAST_STEP, ABOVE_NOISE * noise);
    for (let at = 0; at < step.length; at++) {
      // beside a step, where only the farther windows see it, the sign is the other one
      const stepUp = far[at]! < 0 ? -step[at]! : step[at]!;
      const isSharp = stepUp > Math.max(least, SHARP_SHARE * Math.abs(far[at]!));
      const isSteep = Math.abs(near[at]!) > Math.max(least, STEEPEST_SHADOW * (NEAR + 1));
      if (isSharp || isSteep) into[at] = 1;
    }
  }
}

function differences(sums: PlaneSums, turned: boolean) {
  const { columns, rows } = sums;
  const step = new Float32Array(columns * rows);
  const far = new Float32Array(columns * rows);
  const near = new Float32Array(columns * rows);
  const length = turned ? rows : columns;
  const breadth = turned ? columns : rows;
  for (let side = 0; side < breadth; side++) {
    const [from, to] = [Math.max(0, side - ALONG), Math.min(breadth, side + ALONG + 1)];
    const mean = (start: number, end: number) =>
      (turned ? sumOver(sums, from, start, to, end) : sumOver(sums, start, from, end, to)) /
      ((end - start) * (to - from));
    // by the edge of the frame the farther windows end with it, both alike
    for (let along = 1; along < length - 1; along++) {
      const reach = Math.min(FAR, along, length - 1 - along);
      const nearer = reach === FAR ? NEAR : Math.max(1, (reach - 1) >> 1);
      const steadied = Math.sqrt(nearer / NEAR); // smaller windows scatter more
      const close = mean(along + 1, along + 1 + nearer) - mean(along - nearer, along);
      const wide = mean(along + 1, along + 1 + reach) - mean(along - reach, along);
      const at = turned ? along * columns + side : side * columns + along;
      near[at] = close * steadied;
      far[at] = wide * steadied;
      step[at] = (((reach + 1) / (nearer + 1)) * close - wide) * steadied;
    }
  }
  return { step, far, near };
}
