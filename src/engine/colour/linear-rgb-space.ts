import type { ChromaticityXy } from './chromaticity.ts';

export interface RgbPrimaries {
  readonly red: ChromaticityXy;
  readonly green: ChromaticityXy;
  readonly blue: ChromaticityXy;
}

/** The linear RGB that light is expressed in; chromaticities CIE 1931 x, y. */
export interface LinearRgbSpace {
  readonly name: string;
  readonly primaries: RgbPrimaries;
  readonly white: ChromaticityXy;
  /** Whose own colours these are, balanced; absent for a space that has a definition. */
  readonly camera?: string;
}
