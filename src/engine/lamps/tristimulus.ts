import { uvPrimeToXy, xyToXyz } from '../colour/chromaticity.ts';
import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import type { SourceColour } from './lit-set.ts';

/** Linear tristimulus light X, Y, Z, adapted to D65: any linear RGB is a matrix away, and light adds up in it. */
export type Tristimulus = readonly [x: number, y: number, z: number];

/** The locus ends 154 mired below the white of the file; a camera balanced for lamps sees daylight beyond its end. */
export const COOLEST_MIRED = -130;
const WARMEST_MIRED = 500;

/** A source's light at Y = 1. Beyond either end of the locus as it ran up to there. */
export function tristimulus({ mired, duv }: SourceColour): Tristimulus {
  const held = Math.min(WARMEST_MIRED, Math.max(COOLEST_MIRED, mired));
  const colour = colourOfWarmth(held, duv);
  if (held === mired) return xyToXyz(uvPrimeToXy(colour));
  const inward = colourOfWarmth(held - Math.sign(held), duv);
  const beyond = Math.abs(mired - held);
  return xyToXyz(
    uvPrimeToXy({
      uPrime: colour.uPrime + beyond * (colour.uPrime - inward.uPrime),
      vPrime: colour.vPrime + beyond * (colour.vPrime - inward.vPrime),
    }),
  );
}
