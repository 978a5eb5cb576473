/**
 * Writes the four cubic B-splines that are not zero at t into `values` from `offset` on, and returns the number of
 * the first. Knots are uniform over 0 to 1 and go on beyond it: `spans` intervals carry `spans` + 3 splines. They
 * are never negative and add up to 1. A t outside 0 to 1 is taken as the nearer end.
 * Source: C. de Boor, "A Practical Guide to Splines", Springer 1978, the uniform case (cited from memory).
 */
export function cubicBSplineAt(t: number, spans: number, values: Float64Array, offset = 0): number {
  const position = Math.min(Math.max(t, 0), 1) * spans;
  const span = Math.min(Math.floor(position), spans - 1);
  const a = position - span;
  const b = 1 - a;
  values[offset] = (b * b * b) / 6;
  values[offset + 1] = (3 * a * a * a - 6 * a * a + 4) / 6;
  values[offset + 2] = (3 * b * b * b - 6 * b * b + 4) / 6;
  values[offset + 3] = (a * a * a) / 6;
  return span;
}
