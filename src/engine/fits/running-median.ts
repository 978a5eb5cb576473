/**
 * Medians over 2 × `reach` + 1 values along each row and then along each column: takes out anything narrower than
 * `reach` + 1 cells either way. Near an edge the window stays as long and within the grid, so that it is no longer
 * about its cell: meant for misfits, which have no slope. NaN does not count; where a window holds nothing else,
 * the result is NaN.
 */
export function runningMedian(
  values: Float64Array,
  columns: number,
  rows: number,
  reach: number,
): Float64Array {
  const alongRows = new Float64Array(values.length);
  const result = new Float64Array(values.length);
  const window = new Float64Array(2 * reach + 1);
  for (let row = 0; row < rows; row++)
    medianAlong(values, alongRows, row * columns, 1, columns, reach, window);
  for (let column = 0; column < columns; column++) {
    medianAlong(alongRows, result, column, columns, rows, reach, window);
  }
  return result;
}

function medianAlong(
  from: Float64Array,
  to: Float64Array,
  start: number,
  step: number,
  length: number,
  reach: number,
  window: Float64Array,
): void {
  for (let i = 0; i < length; i++) {
    const first = Math.max(0, Math.min(i - reach, length - window.length));
    const end = Math.min(length, first + window.length);
    let held = 0;
    for (let k = first; k < end; k++) {
      const value = from[start + k * step]!;
      if (Number.isNaN(value)) continue;
      let place = held++;
      for (; place > 0 && window[place - 1]! > value; place--) window[place] = window[place - 1]!;
      window[place] = value;
    }
    const middle = held >> 1;
    to[start + i * step] =
      held === 0
        ? Number.NaN
        : held % 2 === 1
          ? window[middle]!
          : (window[middle - 1]! + window[middle]!) / 2;
  }
}
