import type { UvPrime } from '../colour/chromaticity.ts';
import { ciede2000 } from '../colour/ciede2000.ts';
import { chromaticityToLab90 } from '../colour/lab.ts';
import type { Tint } from '../reading.ts';
import type { ColourMap } from './colour-of-cells.ts';
import { withNulls } from './falloff.ts';

/** The tint figures of the contract, from smoothed cells and the chromaticity of the mean XYZ. */
export function tint(
  smoothed: ColourMap,
  mean: UvPrime,
  spreadDeltaUv: number,
  plusMinusDeltaUv: number,
): Tint {
  const meanLab = chromaticityToLab90(mean.uPrime, mean.vPrime);
  let deltaE00Max = 0;
  for (let i = 0; i < smoothed.uPrime.length; i++) {
    const lab = chromaticityToLab90(smoothed.uPrime[i]!, smoothed.vPrime[i]!);
    const difference = ciede2000(lab, meanLab);
    if (difference > deltaE00Max) deltaE00Max = difference; // NaN compares false
  }
  return {
    spreadDeltaUv,
    plusMinusDeltaUv,
    deltaE00Max,
    uPrimeMap: withNulls(smoothed.uPrime),
    vPrimeMap: withNulls(smoothed.vPrime),
  };
}
