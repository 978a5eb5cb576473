import type { BandShape } from '../numeric/banded-cholesky.ts';
import type { FrameRectangle } from '../reading.ts';

/** The functions a surface is a sum of. Its normal matrix has the band shape given. */
export interface SurfaceBasis extends BandShape {
  /** Functions that may be other than zero at one point. */
  readonly perPoint: number;
  /** Writes their numbers, ascending, and their values at (x, y) of the frame from `offset` on. */
  write(x: number, y: number, terms: Int32Array, values: Float64Array, offset: number): void;
}

/** −1 at one edge of the region, 1 at the other. */
export function acrossRegion(x: number, { left, right }: FrameRectangle): number {
  return (2 * x - left - right) / (right - left);
}

/** −1 at the region's top edge, 1 at its bottom one. */
export function downRegion(y: number, { top, bottom }: FrameRectangle): number {
  return (2 * y - top - bottom) / (bottom - top);
}
