import { quantile } from '../numeric/quantile.ts';

/** Values beside the mode that still belong to its peak, for its median. */
const PEAK_HALF_WIDTH = 0.03;

/**
 * Where values lie most densely: the densest half is taken, its densest half again, and so on; then the median of
 * what lies close by. Source: D. R. Bickel and R. Frühwirth, "On a fast, robust estimator of the mode", Comput. Stat.
 * Data Anal. 50, 2006, as remembered. NaN of no values.
 */
export function halfSampleMode(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  let from = 0;
  let count = sorted.length;
  while (count > 3) {
    const half = Math.ceil(count / 2);
    let best = from;
    for (let start = from; start + half <= from + count; start++) {
      if (sorted[start + half - 1]! - sorted[start]! < sorted[best + half - 1]! - sorted[best]!) best = start;
    }
    from = best;
    count = half;
  }
  const mode = sorted[from + (count >> 1)] ?? Number.NaN;
  const peak = Array.from(sorted.filter((value) => Math.abs(value - mode) <= PEAK_HALF_WIDTH));
  return peak.length > 0 ? quantile(peak, 0.5) : mode;
}
