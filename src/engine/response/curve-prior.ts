import { choleskyFactor } from '../numeric/cholesky-factor.ts';

export const SPANS = 48;
export const SPLINES = SPANS + 3;

/** Stops by which level and slope alone may differ from sRGB's: wide enough to say nothing. */
const LEVEL_STOPS = 8;

export interface CurvePrior {
  /** Inverse covariance of the splines' heights, row-major. */
  readonly matrix: Float64Array;
  readonly logDeterminant: number;
}

const known = new Map<number, CurvePrior>();

/**
 * What is expected of a curve's difference from sRGB's before any frame is seen: second differences of the splines'
 * heights are independent, of one standard deviation.
 */
export function curvePrior(roughness: number): CurvePrior {
  const had = known.get(roughness);
  if (had) return had;
  const matrix = new Float64Array(SPLINES * SPLINES);
  const second = [1, -2, 1];
  for (let row = 0; row + 2 < SPLINES; row++)
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++)
        matrix[(row + i) * SPLINES + row + j]! += (second[i]! * second[j]!) / roughness ** 2;
  for (let i = 0; i < SPLINES; i++) matrix[i * SPLINES + i]! += 1 / LEVEL_STOPS ** 2;
  const factor = choleskyFactor(matrix, SPLINES);
  let logDeterminant = 0;
  for (let i = 0; i < SPLINES; i++) logDeterminant += 2 * Math.log(factor[i * SPLINES + i]!);
  const prior = { matrix, logDeterminant };
  known.set(roughness, prior);
  return prior;
}
