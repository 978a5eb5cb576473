import type { FramePoint, FrameRectangle } from '../reading.ts';

/** Every family of surface, simplest first. */
export const SURFACE_NAMES = ['plane', 'quadratic', 'radial', 'set', 'spline'] as const;

export type SurfaceName = (typeof SURFACE_NAMES)[number];

/** One coefficient a basis function and channel. */
export interface ChannelCoefficients {
  readonly red: Float64Array;
  readonly green: Float64Array;
  readonly blue: Float64Array;
}

interface FittedLight extends ChannelCoefficients {
  /** Free parameters of one channel (effective number for a penalised spline). */
  readonly terms: number;
  readonly region: FrameRectangle;
  /** Root mean square error in stops of luminance on blocks of cells held out of the fit. */
  readonly heldOutEv: number;
  /** Standard error of that figure over the blocks. */
  readonly heldOutStandardErrorEv: number;
}

/**
 * A smooth surface fitted to the log2 light of each channel over the region. Outside it is not to be trusted.
 *
 * Bases, with p and q running from −1 at the region's left and top edges to 1 at its right and bottom ones:
 * - plane: 1, p, q
 * - quadratic: 1, p, q, p², pq, q²
 * - radial: 1, s, s², s³, where s is the squared distance from `centre` in square pixels, 1 at the farthest a
 *   corner of the region can lie; one centre for all channels
 * - spline: cubic B-splines, `spansAcross` and `spansDown` equal intervals over the region; the coefficient of
 *   spline (i, j) stands at i × (spansDown + 3) + j where there are no more spans down than across, else at
 *   j × (spansAcross + 3) + i
 * - set: the light of the fitted model of the set, told by such a spline
 */
export type Surface = FittedLight &
  (
    | { readonly name: 'plane' | 'quadratic' }
    | {
        readonly name: 'radial';
        readonly centre: FramePoint;
        /** Width of the region over its height, in pixels. */
        readonly regionAspect: number;
      }
    | {
        readonly name: 'spline' | 'set';
        readonly spansAcross: number;
        readonly spansDown: number;
        /** Weight of bending against misfit, 1 where they balance over a length of about six spans. */
        readonly stiffness: number;
      }
  );
