import { type UvPrime, uv1960ToUvPrime, xyToUvPrime } from './chromaticity.ts';
import { cctAndDuv } from './correlated-colour-temperature.ts';
import { planckianDerivative, planckianUv1960 } from './planckian-locus.ts';
import { D65 } from './white-points.ts';

const NEUTRAL = xyToUvPrime(D65);
const OF_NEUTRAL = cctAndDuv(NEUTRAL.uPrime, NEUTRAL.vPrime)!;

/**
 * The colour that is so much warmer (mired) and greener (Duv) than D65: the inverse of {@link warmthFromD65}. NaN
 * outside the locus, 0 to 700 mired from its own zero.
 */
export function colourOfWarmth(mired: number, duv: number): UvPrime {
  const onLocus = planckianUv1960(OF_NEUTRAL.mired + mired);
  const slope = planckianDerivative(OF_NEUTRAL.mired + mired, 1);
  const length = Math.hypot(slope.u, slope.v);
  const off = OF_NEUTRAL.duv + duv;
  // warmer runs to larger u: the normal to its left points up, to greener light
  return uv1960ToUvPrime({
    u: onLocus.u - (off * slope.v) / length,
    v: onLocus.v + (off * slope.u) / length,
  });
}
