/**
 * Student's t that 97.5 % stay below: how many standard errors of a mean, told from its own sample, a 95 % interval
 * reaches. Exact for one and two degrees of freedom; else by Cornish and Fisher's expansion, within 0.3 % from three on.
 * Source of the expansion: M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 26.7.5, quoted from memory.
 */
export function tFactor95(freedom: number): number {
  if (freedom === 1) return Math.tan(0.475 * Math.PI);
  if (freedom === 2) return 0.95 * Math.sqrt(2 / (0.05 * (2 - 0.05)));
  const x = NORMAL_975;
  const terms = [
    (x ** 3 + x) / 4,
    (5 * x ** 5 + 16 * x ** 3 + 3 * x) / 96,
    (3 * x ** 7 + 19 * x ** 5 + 17 * x ** 3 - 15 * x) / 384,
    (79 * x ** 9 + 776 * x ** 7 + 1482 * x ** 5 - 1920 * x ** 3 - 945 * x) / 92160,
  ];
  return terms.reduce((t, term, i) => t + term / freedom ** (i + 1), x);
}

const NORMAL_975 = 1.959964;
const NORMAL_95 = 1.644854;

/**
 * Times its true variance that a sample's variance exceeds by chance once in twenty, by the cube root of chi-square.
 * Source: E. B. Wilson and M. M. Hilferty, The distribution of chi-square, PNAS 17 (1931) 684; within 3 % from one degree
 * of freedom on.
 */
export function surelyOverShare(freedom: number): number {
  const spread = 2 / (9 * freedom);
  return (1 - spread + NORMAL_95 * Math.sqrt(spread)) ** 3;
}
