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

/**
 * The p-th quantile of values in any order; those that are NaN don't count.
 *
 * @throws RangeError where p lies outside 0 to 1.
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  const finite = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i]!)) finite[n++] = values[i]!;
  }
  const some = finite.subarray(0, n);
  if (n > FEW && p >= 0 && p <= 1) partSort(some, Math.floor((n - 1) * p));
  else some.sort();
  return quantileOfSorted(some, p);
}

/** So many are sorted as quickly. */
const FEW = 32;

/**
 * Puts the k-th smallest in its place, smaller ones before it and the next one after it: what a quantile needs of a
 * sorted list, in time that goes with its length.
 * Source: C. A. R. Hoare, Algorithm 65: Find, Comm. ACM 4 (1961) 321.
 */
function partSort(values: Float64Array, k: number): void {
  let [from, to] = [0, values.length - 1];
  while (from < to) {
    const pivot = middleOfThree(values[from]!, values[(from + to) >> 1]!, values[to]!);
    let [i, j] = [from, to];
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const other = values[i]!;
      values[i++] = values[j]!;
      values[j--] = other;
    }
    if (k <= j) to = j;
    else if (k >= i) from = i;
    else break;
  }
  let least = k + 1;
  for (let i = k + 2; i < values.length; i++) if (values[i]! < values[least]!) least = i;
  if (least < values.length) {
    const other = values[k + 1]!;
    values[k + 1] = values[least]!;
    values[least] = other;
  }
}

function middleOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
