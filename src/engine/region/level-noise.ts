import { quantile } from '../numeric/quantile.ts';

const MAD_TO_SIGMA = 1.4826;
/** A second difference of three values of unit noise has this variance: 1 + 4 + 1. */
const SECOND_DIFFERENCE_VARIANCE = 6;

/** Standard deviation of what does not hang together from cell to cell along the rows, in the levels' unit. */
export function levelNoise(levels: Float64Array, columns: number): number {
  const bends = levels.map((level, i) => {
    const column = i % columns;
    return column === 0 || column === columns - 1
      ? Number.NaN
      : Math.abs(levels[i - 1]! - 2 * level + levels[i + 1]!);
  });
  const typical = quantile(bends, 0.5);
  return Number.isNaN(typical) ? 0 : (MAD_TO_SIGMA * typical) / Math.sqrt(SECOND_DIFFERENCE_VARIANCE);
}
