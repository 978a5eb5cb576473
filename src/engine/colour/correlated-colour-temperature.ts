import { type Uv1960, uvPrimeToUv1960 } from './chromaticity.ts';
import { LOCUS_RANGE_MIRED, planckianDerivative, planckianUv1960 } from './planckian-locus.ts';

/** A colour by its place along and beside the Planckian locus. */
export interface MiredAndDuv {
  /** Reciprocal megakelvin; positive differences are warmer. */
  readonly mired: number;
  /** Signed distance in CIE 1960 u, v; positive, above the locus, is greener. */
  readonly duv: number;
}

/** Farther than this from the locus a colour temperature means nothing: CIE 15:2004, 9.5, as remembered. */
export const LARGEST_DUV = 0.05;

const SCAN_STEP_MIRED = 20;
const SCAN: readonly (Uv1960 & { readonly mired: number })[] = Array.from(
  { length: (LOCUS_RANGE_MIRED.to - LOCUS_RANGE_MIRED.from) / SCAN_STEP_MIRED + 1 },
  (_, i) => {
    const mired = LOCUS_RANGE_MIRED.from + i * SCAN_STEP_MIRED;
    return { mired, ...planckianUv1960(mired) };
  },
);

/**
 * Correlated colour temperature and Duv: the nearest point of the Planckian locus in CIE 1960 u, v.
 * `null` where that lies more than {@link LARGEST_DUV} away or outside the locus's range, and for NaN.
 * Source: CIE e-ILV, "correlated colour temperature", for the definition; Y. Ohno, "Practical use and calculation of
 * CCT and Duv", LEUKOS 10(1), 2014, for the sign of Duv.
 */
export function cctAndDuv(uPrime: number, vPrime: number): MiredAndDuv | null {
  const colour = uvPrimeToUv1960({ uPrime, vPrime });
  const mired = nearestMired(colour);
  if (mired === null) return null;
  const point = planckianUv1960(mired);
  const tangent = planckianDerivative(mired, 1);
  const across = tangent.u * (colour.v - point.v) - tangent.v * (colour.u - point.u);
  const duv = across / Math.hypot(tangent.u, tangent.v);
  return Math.abs(duv) <= LARGEST_DUV ? { mired, duv } : null;
}

/**
 * Newton's steps to where the locus runs square to the line to the colour. Within {@link LARGEST_DUV} there is one
 * such place, since the locus never bends tighter than a radius of 0.10.
 */
function nearestMired(colour: Uv1960): number | null {
  let mired = nearestOfScan(colour);
  for (let step = 0; step < 20; step++) {
    const point = planckianUv1960(mired);
    const first = planckianDerivative(mired, 1);
    const second = planckianDerivative(mired, 2);
    const du = colour.u - point.u;
    const dv = colour.v - point.v;
    const along = du * first.u + dv * first.v;
    const fall = first.u ** 2 + first.v ** 2 - du * second.u - dv * second.v;
    // A colour beyond the centre of curvature has no nearest place to step to; it lies too far away anyway.
    if (!(fall > 0)) return null;
    const change = along / fall;
    mired += change;
    if (!(mired >= LOCUS_RANGE_MIRED.from && mired <= LOCUS_RANGE_MIRED.to)) return null;
    if (Math.abs(change) < 1e-9) return mired;
  }
  return null;
}

function nearestOfScan({ u, v }: Uv1960): number {
  let nearest = Number.NaN;
  let least = Number.POSITIVE_INFINITY;
  for (const point of SCAN) {
    const square = (point.u - u) ** 2 + (point.v - v) ** 2;
    if (square < least) {
      least = square;
      nearest = point.mired;
    }
  }
  return nearest;
}
