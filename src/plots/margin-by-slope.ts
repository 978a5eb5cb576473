import type { CellMap } from './cell-map.ts';

/**
 * The map with one more row or column on every side, going on at the slope it had, so that its lines reach the
 * frame's edge, half a cell beyond the outermost middles. Next to a hole the margin is a hole (NaN) too.
 */
export function marginBySlope({ columns, rows, values }: CellMap): CellMap {
  const wide = columns + 2;
  const tall = rows + 2;
  const wider = new Float64Array(wide * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++)
      wider[row * wide + column + 1] = values[row * columns + column]!;
    goOn(wider, row * wide, 1, columns);
  }
  const whole = new Float64Array(wide * tall);
  whole.set(wider, wide);
  for (let column = 0; column < wide; column++) goOn(whole, column, wide, rows);
  return { columns: wide, rows: tall, values: whole };
}

/** Fills the first and the last of count + 2 values, `step` apart from `start`. Modifies the values. */
function goOn(values: Float64Array, start: number, step: number, count: number): void {
  const at = (i: number) => values[start + i * step]!;
  values[start] = count > 1 ? 2 * at(1) - at(2) : at(1);
  values[start + (count + 1) * step] = count > 1 ? 2 * at(count) - at(count - 1) : at(count);
}
