import { planeSums, sumOver } from './plane-sums.ts';

/**
 * Means over the square that reaches `reach` cells from each, every cell counted by its weight; NaN where none there
 * has any.
 */
export function weightedMeans(
  planes: readonly ArrayLike<number>[],
  weight: Float32Array,
  columns: number,
  rows: number,
  reach: number,
): Float32Array[] {
  const weights = planeSums(weight, columns, rows);
  const product = new Float32Array(weight.length);
  return planes.map((plane) => {
    for (let at = 0; at < product.length; at++) product[at] = weight[at]! > 0 ? weight[at]! * plane[at]! : 0;
    const sums = planeSums(product, columns, rows);
    const means = new Float32Array(weight.length);
    for (let y = 0, at = 0; y < rows; y++) {
      const [y0, y1] = [Math.max(0, y - reach), Math.min(rows, y + reach + 1)];
      for (let x = 0; x < columns; x++, at++) {
        const [x0, x1] = [Math.max(0, x - reach), Math.min(columns, x + reach + 1)];
        const total = sumOver(weights, x0, y0, x1, y1);
        // what sums of sums leave of nothing is rounding
        means[at] = total > 1e-6 ? sumOver(sums, x0, y0, x1, y1) / total : Number.NaN;
      }
    }
    return means;
  });
}
