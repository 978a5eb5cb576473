import type { FrameRectangle } from '../reading.ts';

export type SurfaceName = 'plane' | 'quadratic' | 'radial' | 'spline';

/**
 * A smooth surface fitted to the log2 light of each channel over the region.
 * Coordinates are the frame's x and y (0 to 1); outside the region it is not to be trusted.
 */
export interface Surface {
  readonly name: SurfaceName;
  /** Free parameters of one channel (effective number for a penalised spline). */
  readonly terms: number;
  readonly region: FrameRectangle;
  /** Root mean square error in stops of luminance on blocks of cells held out of the fit. */
  readonly heldOutEv: number;
  /** Standard error of that figure over the blocks. */
  readonly heldOutStandardErrorEv: number;
  /** Coefficients per channel, in the family's own basis; log2 of linear light. */
  readonly red: Float64Array;
  readonly green: Float64Array;
  readonly blue: Float64Array;
}
