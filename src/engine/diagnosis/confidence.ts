/**
 * How sure it is that an effect is there at all: the probability that pure chance, normal with a 95 % interval of
 * ±`plusMinus`, stays below it. 0 where there is no effect, 0.95 where it equals its ±, 1 where the ± is zero.
 */
export function confidenceOf(effect: number, plusMinus: number): number {
  if (!(effect > 0)) return 0;
  if (!(plusMinus > 0)) return 1;
  return errorFunction((1.959963985 * effect) / plusMinus / Math.SQRT2);
}

/**
 * erf(x) for x ≥ 0, off by less than 1.5e-7.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.26 (from memory; checked in the tests
 * against a numerical integral).
 */
function errorFunction(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const sum =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return Math.min(1, Math.max(0, 1 - sum * Math.exp(-x * x)));
}
