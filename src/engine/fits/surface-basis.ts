import type { BandShape } from '../numeric/banded-cholesky.ts';
import type { FrameRectangle } from '../reading.ts';

/**
 * The functions a surface is a sum of; its normal matrix has the band shape given. At one point no others can
 * differ from zero than `runs` runs of `runLength` neighbours, each run beginning `runStride` after the one before.
 */
export interface SurfaceBasis extends BandShape {
  readonly runs: number;
  readonly runLength: number;
  readonly runStride: number;
  /** Writes their values at (x, y) of the frame from `offset` on, run by run; returns the number of the first. */
  write(x: number, y: number, values: Float64Array, offset: number): number;
}

/** −1 at one edge of the region, 1 at the other. */
export function acrossRegion(x: number, { left, right }: FrameRectangle): number {
  return (2 * x - left - right) / (right - left);
}

/** −1 at the region's top edge, 1 at its bottom one. */
export function downRegion(y: number, { top, bottom }: FrameRectangle): number {
  return (2 * y - top - bottom) / (bottom - top);
}
