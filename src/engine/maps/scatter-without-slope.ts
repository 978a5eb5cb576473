import type { CellChannels } from '../grid/cell-grid.ts';

/** Difference to the next cell along one axis, from the neighbours that exist and were measured; 0 where none was. */
export function cellSlope(
  values: Float64Array,
  i: number,
  stride: number,
  position: number,
  count: number,
): number {
  let before = position > 0 ? i - stride : i;
  let after = position < count - 1 ? i + stride : i;
  if (Number.isNaN(values[before]!)) before = i;
  if (Number.isNaN(values[after]!)) after = i;
  return after > before ? ((values[after]! - values[before]!) * stride) / (after - before) : 0;
}

function ofChannel(scatter: Float64Array, smooth: Float64Array, columns: number, rows: number): Float64Array {
  return scatter.map((value, i) => {
    const across = cellSlope(smooth, i, 1, i % columns, columns);
    const down = cellSlope(smooth, i, columns, Math.floor(i / columns), rows);
    return Math.sqrt(Math.max(0, value * value - (across * across + down * down) / 12));
  });
}

/**
 * Scatter of single pixels less what a slope through the cell makes of it: slope² / 12 each way, in units of a cell.
 * Linear light in and out; `smooth` is the cells' light, as smooth as is known.
 */
export function scatterWithoutSlope(
  scatter: CellChannels,
  smooth: CellChannels,
  columns: number,
  rows: number,
): CellChannels {
  return {
    red: ofChannel(scatter.red, smooth.red, columns, rows),
    green: ofChannel(scatter.green, smooth.green, columns, rows),
    blue: ofChannel(scatter.blue, smooth.blue, columns, rows),
  };
}
