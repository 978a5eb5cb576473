import type { Exposure, FrameRectangle, Gradient, LightBasis, TintGradient } from '../reading.ts';

/** The luminance levels that a region can be brought to. */
export const PROFILE_REFERENCES = ['brightest', 'mean', 'darkest'] as const;

export type ProfileReference = (typeof PROFILE_REFERENCES)[number];

/** No camera tells light over more stops, and a gain of thousands is none that could be written. */
export const MOST_STOPS = 24;

/** A grid of log2 gains over the whole upright frame: node 0 on its left or top edge, the last on the other. */
export interface GainLattice {
  readonly columns: number;
  readonly rows: number;
  readonly red: readonly number[];
  readonly green: readonly number[];
  readonly blue: readonly number[];
}

/**
 * Correction profile, schema `evenfield.profile/1` of the public contract.
 * Corrected linear light = light × neutral × 2^lattice(x, y), per channel, bilinear between nodes.
 */
export interface Profile {
  readonly schema: 'evenfield.profile/1';
  readonly madeFrom: {
    readonly name: string;
    readonly sha256: string | null;
    readonly widthPx: number;
    readonly heightPx: number;
    readonly orientation: number;
    readonly exposure: Exposure | null;
    readonly region: FrameRectangle;
  };
  /** The linear RGB in which the gains hold; chromaticities are CIE 1931 x, y. */
  readonly colourSpace:
    | {
        readonly name: string;
        readonly primaries: {
          readonly red: readonly [number, number];
          readonly green: readonly [number, number];
          readonly blue: readonly [number, number];
        };
        readonly white: readonly [number, number];
      }
    | { readonly name: 'camera-native'; readonly camera: string };
  readonly light: LightBasis;
  readonly reference: ProfileReference;
  readonly neutral: { readonly red: number; readonly green: number; readonly blue: number };
  readonly lattice: GainLattice;
  readonly model: {
    readonly name: string;
    readonly terms: number;
    readonly heldOutEv: number;
    readonly residualSpreadEv: number;
  };
  readonly gradient: Gradient;
  readonly tintGradient: TintGradient;
}
