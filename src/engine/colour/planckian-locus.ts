import { chebyshevDerivative, chebyshevSeries } from '../numeric/chebyshev-series.ts';
import type { Uv1960 } from './chromaticity.ts';

/** Where the series below holds: from an infinite temperature to about 1429 K. */
export const LOCUS_RANGE_MIRED = { from: 0, to: 700 } as const;

/**
 * Chebyshev series of u and v (CIE 1960) over {@link LOCUS_RANGE_MIRED}, fitted to Planck's law with
 * c2 = 1.4388e-2 m K (CIE 15) over the CIE 1931 2° observer at 5 nm, 360 to 830 nm. Truncation leaves 1.4e-8; the
 * observer at 1 nm lies within 1.6e-6. A test draws both anew from the observer's table.
 */
const U = [
  0.2642844001, 0.0984385837, 0.0091801122, -0.0046676746, 0.0006873869, 0.0001199761, -0.0001327724,
  5.70896e-5, -1.3881e-5, -1.3062e-6, 3.6505e-6, -2.2029e-6, 7.116e-7, -8.7e-9, -1.447e-7, 9.8e-8, -3.47e-8,
  3e-9, 3.7e-9,
];
const V = [
  0.3289982738, 0.0476129317, -0.0191673732, 0.0016543221, 0.0016692949, -0.0010125027, 0.0003108828,
  -3.24421e-5, -3.01271e-5, 2.59772e-5, -1.20628e-5, 3.1474e-6, 2.906e-7, -8.475e-7, 5.199e-7, -1.8e-7,
  1.56e-8, 2.62e-8, -1.89e-8,
];

const HALF_RANGE_MIRED = (LOCUS_RANGE_MIRED.to - LOCUS_RANGE_MIRED.from) / 2;
const MIDDLE_MIRED = (LOCUS_RANGE_MIRED.to + LOCUS_RANGE_MIRED.from) / 2;
const U_DERIVATIVES = derivatives(U);
const V_DERIVATIVES = derivatives(V);

/** CIE 1960 chromaticity of a black body, 2°. NaN outside {@link LOCUS_RANGE_MIRED} and for NaN. */
export function planckianUv1960(mired: number): Uv1960 {
  return planckianDerivative(mired, 0);
}

/** The first or second derivative of {@link planckianUv1960} by mired; order 0 is the point itself. */
export function planckianDerivative(mired: number, order: 0 | 1 | 2): Uv1960 {
  if (!(mired >= LOCUS_RANGE_MIRED.from && mired <= LOCUS_RANGE_MIRED.to))
    return { u: Number.NaN, v: Number.NaN };
  const t = (mired - MIDDLE_MIRED) / HALF_RANGE_MIRED;
  return { u: chebyshevSeries(U_DERIVATIVES[order], t), v: chebyshevSeries(V_DERIVATIVES[order], t) };
}

function derivatives(series: readonly number[]) {
  const perMired = (c: readonly number[]) => chebyshevDerivative(c).map((value) => value / HALF_RANGE_MIRED);
  const first = perMired(series);
  return [series, first, perMired(first)] as const;
}
