import type { UvPrime } from '../engine/colour/chromaticity.ts';
import type { Reading } from '../engine/reading.ts';

/** The chromaticity that tint is measured from: that of the region's mean XYZ, which is where the cast is read. */
export function meanChromaticity({ cast }: Reading): UvPrime {
  return { uPrime: cast.uPrime, vPrime: cast.vPrime };
}
