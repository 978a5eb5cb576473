/** Cells along the long side in which motion is looked for: noise hardly counts in so large ones. */
const LONG_SIDE = 8;

/** A map of light pooled into few cells, in stops. */
export function coarseStops(light: Float64Array, columns: number, rows: number): Float64Array {
  const scale = LONG_SIDE / Math.max(columns, rows);
  const [wide, high] = [Math.max(1, Math.round(columns * scale)), Math.max(1, Math.round(rows * scale))];
  const sums = new Float64Array(wide * high);
  const counts = new Float64Array(wide * high);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const cell = Math.floor((row * high) / rows) * wide + Math.floor((column * wide) / columns);
      sums[cell] = sums[cell]! + light[row * columns + column]!;
      counts[cell] = counts[cell]! + 1;
    }
  }
  return sums.map((sum, cell) => Math.log2(sum / counts[cell]!));
}
