import { mean } from '../numeric/mean.ts';

/** A figure of a set with the half-width of its 95 % interval. */
export interface Estimate {
  readonly value: number;
  readonly plusMinus: number;
}

/** The best set's figure first, the likely ones' after it. */
export function estimateOf(values: readonly number[]): Estimate {
  const [best] = values;
  const square = values.reduce((sum, value) => sum + (value - best!) ** 2, 0) / (values.length - 1);
  return { value: best!, plusMinus: 1.96 * Math.sqrt(square) };
}

/** How two figures go together over likely sets, −1 to 1; 0 where one of them does not vary. */
export function correlation(a: readonly number[], b: readonly number[]): number {
  const [meanA, meanB] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  a.forEach((value, i) => {
    ab += (value - meanA) * (b[i]! - meanB);
    aa += (value - meanA) ** 2;
    bb += (b[i]! - meanB) ** 2;
  });
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}
