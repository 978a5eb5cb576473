/**
 * The p-th quantile of values already in ascending order, interpolated linearly between order statistics
 * (Hyndman and Fan 1996, definition 7). NaN for an empty array.
 *
 * @throws RangeError where p lies outside 0 to 1.
 */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a quantile lies between 0 and 1, not at ${p}`);
  const n = sorted.length;
  if (n === 0) return Number.NaN;
  const position = (n - 1) * p;
  const below = Math.floor(position);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, n - 1)]!;
  return low + (high - low) * (position - below);
}

/** The p-th quantile of values in any order; those that are NaN don't count. */
export function quantile(values: ArrayLike<number>, p: number): number {
  const finite = Float64Array.from(values).filter((value) => !Number.isNaN(value));
  return quantileOfSorted(finite.sort(), p);
}
