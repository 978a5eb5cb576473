import { quantileOfSorted } from '../numeric/quantile.ts';

/** A gap is filled from the cells this far around. */
const REACH_CELLS = 3;

/**
 * The map with its NaN cells filled by the middle one of the cells around, so that filters run over them; a cell with
 * nothing around stays NaN. `null` where less than half of the map was measured.
 */
export function filledGaps(map: Float64Array, columns: number, rows: number): Float64Array | null {
  const measured = map.reduce((sum, value) => sum + (Number.isFinite(value) ? 1 : 0), 0);
  if (measured < map.length / 2) return null;
  return map.map((value, cell) => {
    if (Number.isFinite(value)) return value;
    const column = cell % columns;
    const row = Math.floor(cell / columns);
    const around: number[] = [];
    for (let r = Math.max(0, row - REACH_CELLS); r <= Math.min(rows - 1, row + REACH_CELLS); r++)
      for (let c = Math.max(0, column - REACH_CELLS); c <= Math.min(columns - 1, column + REACH_CELLS); c++)
        if (Number.isFinite(map[r * columns + c]!)) around.push(map[r * columns + c]!);
    return quantileOfSorted(
      around.sort((a, b) => a - b),
      0.5,
    );
  });
}
