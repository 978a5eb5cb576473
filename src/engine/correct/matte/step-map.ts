import { quantile } from '../../numeric/quantile.ts';
import { type PlaneSums, planeSums, sumOver } from './plane-sums.ts';

/** Cells that the nearer and the farther windows on both sides of a place reach away from it, and along it. */
interface Windows {
  readonly near: number;
  readonly far: number;
  readonly along: number;
  /** Stops of change over the farther ones from which a step is not looked for. */
  readonly strongest: number;
}

/** Larger windows see through more noise; what is strong enough for small ones would only be blurred by them. */
const WINDOWS: readonly Windows[] = [
  { near: 5, far: 11, along: 2, strongest: Number.POSITIVE_INFINITY },
  { near: 11, far: 23, along: 5, strongest: 0.15 },
];
/** How much of a change over the farther windows must have happened within the nearer ones to be a step. */
const SHARP_SHARE = 0.35;
/** Stops per cell from which no shadow rises. */
const STEEPEST_SHADOW = 0.08;
/** Standard deviations of noise that a step stands above, and the least step that is worth looking for, in stops. */
const ABOVE_NOISE = 4;
export const LEAST_STEP_EV = 0.01;
/**
 * The noise is told by how far 95 of 100 quiet places scatter, 1.96 standard deviations of a normal: a JPEG's blocks
 * step here and there and lie flat between, which a median would not see.
 */
const QUIET_SHARE = 0.95;
const OF_NORMAL = 1.96;

/**
 * Marks (1) where a plane of stops steps rather than slopes. Means on both sides of a place differ by one amount
 * however wide the windows are where it steps, and by twice as much over windows twice as far where it slopes: so
 * twice the nearer difference less the farther one is the step alone.
 *
 * @param isQuiet - cells whose scatter counts as noise.
 * @param leastEv - the least step looked for.
 */
export function markSteps(
  plane: Float32Array,
  columns: number,
  rows: number,
  isQuiet: (at: number) => boolean,
  leastEv: number,
  into: Uint8Array,
): void {
  const sums = planeSums(plane, columns, rows);
  for (const windows of WINDOWS)
    for (const turned of [false, true]) markAlong(sums, windows, turned, isQuiet, leastEv, into);
}

function markAlong(
  sums: PlaneSums,
  windows: Windows,
  turned: boolean,
  isQuiet: (at: number) => boolean,
  leastEv: number,
  into: Uint8Array,
): void {
  const { step, far, near } = differences(sums, windows, turned);
  const quiet: number[] = [];
  const stride = Math.max(1, Math.floor(step.length / 50_000));
  for (let at = 0; at < step.length; at += stride) if (isQuiet(at)) quiet.push(Math.abs(step[at]!));
  const noise = quiet.length > 0 ? quantile(quiet, QUIET_SHARE) / OF_NORMAL : 0;
  const least = Math.max(leastEv, ABOVE_NOISE * noise);
  for (let at = 0; at < step.length; at++) {
    // beside a step, where only the farther windows see it, the sign is the other one
    const stepUp = far[at]! < 0 ? -step[at]! : step[at]!;
    const isSharp = stepUp > Math.max(least, SHARP_SHARE * Math.abs(far[at]!));
    const isSteep = Math.abs(near[at]!) > Math.max(least, STEEPEST_SHADOW * (windows.near + 1));
    if ((isSharp || isSteep) && Math.abs(far[at]!) < windows.strongest) into[at] = 1;
  }
}

function differences(sums: PlaneSums, windows: Windows, turned: boolean) {
  const { columns, rows } = sums;
  const step = new Float32Array(columns * rows);
  const far = new Float32Array(columns * rows);
  const near = new Float32Array(columns * rows);
  const length = turned ? rows : columns;
  const breadth = turned ? columns : rows;
  for (let side = 0; side < breadth; side++) {
    const [from, to] = [Math.max(0, side - windows.along), Math.min(breadth, side + windows.along + 1)];
    const mean = (start: number, end: number) =>
      (turned ? sumOver(sums, from, start, to, end) : sumOver(sums, start, from, end, to)) /
      ((end - start) * (to - from));
    // by the edge of the frame the farther windows end with it, both alike
    for (let along = 1; along < length - 1; along++) {
      const reach = Math.min(windows.far, along, length - 1 - along);
      const nearer = reach === windows.far ? windows.near : Math.max(1, (reach - 1) >> 1);
      const steadied = Math.sqrt(nearer / windows.near); // smaller windows scatter more
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
