/** Sum of c[k] Tₖ(t) for t from −1 to 1, by Clenshaw's recurrence (MTAC 9, 1955). NaN in, NaN out. */
export function chebyshevSeries(coefficients: readonly number[], t: number): number {
  let next = 0;
  let afterNext = 0;
  for (let k = coefficients.length - 1; k > 0; k--) {
    const value = coefficients[k]! + 2 * t * next - afterNext;
    afterNext = next;
    next = value;
  }
  return coefficients[0]! + t * next - afterNext;
}

/** Coefficients of the series' derivative by t: c′[k−1] = c′[k+1] + 2 k c[k], c′[0] halved. */
export function chebyshevDerivative(coefficients: readonly number[]): readonly number[] {
  const derivative = new Array<number>(Math.max(1, coefficients.length - 1)).fill(0);
  for (let k = coefficients.length - 1; k > 0; k--)
    derivative[k - 1] = (derivative[k + 1] ?? 0) + 2 * k * coefficients[k]!;
  derivative[0]! /= 2;
  return derivative;
}
