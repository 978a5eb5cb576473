import { xyToUvPrime } from './chromaticity.ts';
import { cctAndDuv, type MiredAndDuv } from './correlated-colour-temperature.ts';
import { D65 } from './white-points.ts';

const NEUTRAL = xyToUvPrime(D65);
const OF_NEUTRAL = cctAndDuv(NEUTRAL.uPrime, NEUTRAL.vPrime)!;

/**
 * How much warmer (mired) and greener (Duv) than D65 a colour is, so that a neutral file reads 0, 0 although D65
 * itself lies at 153.7 mired and Duv +0.0032. `null` as in {@link cctAndDuv}.
 */
export function warmthFromD65(uPrime: number, vPrime: number): MiredAndDuv | null {
  const colour = cctAndDuv(uPrime, vPrime);
  if (colour === null) return null;
  return { mired: colour.mired - OF_NEUTRAL.mired, duv: colour.duv - OF_NEUTRAL.duv };
}
