import type { CellChannels, CellGrid } from './cell-grid.ts';

/** Noise changes slowly over a frame, so its variance is averaged over this many cells each way. */
const REACH_CELLS = 2;

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

/** Variance of evenly spaced pixels along a slope of 1 a cell. */
const slopeVariance = (sidePx: number) => (1 - 1 / (sidePx * sidePx)) / 12;

/** Mean over the 5 × 5 cells around, those without measurement left out; NaN where none is left. */
function averaged(values: Float64Array, columns: number, rows: number): Float64Array {
  return values.map((_, i) => {
    const column = i % columns;
    const row = Math.floor(i / columns);
    let sum = 0;
    let n = 0;
    for (let y = Math.max(0, row - REACH_CELLS); y <= Math.min(rows - 1, row + REACH_CELLS); y++) {
      for (let x = Math.max(0, column - REACH_CELLS); x <= Math.min(columns - 1, column + REACH_CELLS); x++) {
        const value = values[y * columns + x]!;
        if (Number.isNaN(value)) continue;
        sum += value;
        n++;
      }
    }
    return sum / n;
  });
}

function ofChannel(scatter: Float64Array, smooth: Float64Array, grid: CellGrid): Float64Array {
  const { columns, rows, pixels } = grid;
  const across = slopeVariance(grid.cellWidthPx);
  const down = slopeVariance(grid.cellHeightPx);
  const variance = scatter.map((value, i) => {
    const right = cellSlope(smooth, i, 1, i % columns, columns);
    const below = cellSlope(smooth, i, columns, Math.floor(i / columns), rows);
    const unbiased = (value * value * pixels[i]!) / Math.max(1, pixels[i]! - 1);
    return Number.isNaN(smooth[i]!) ? Number.NaN : unbiased - right * right * across - below * below * down;
  });
  return averaged(variance, columns, rows).map((value) => Math.sqrt(Math.max(0, value)));
}

/**
 * Noise of single pixels: their scatter about the cell's mean less what the slope through the cell makes of it, averaged
 * over neighbouring cells. Linear light in and out; `smooth` is the cells' light, as smooth as is known.
 */
export function scatterWithoutSlope(grid: CellGrid, smooth: CellChannels): CellChannels {
  return {
    red: ofChannel(grid.scatter.red, smooth.red, grid),
    green: ofChannel(grid.scatter.green, smooth.green, grid),
    blue: ofChannel(grid.scatter.blue, smooth.blue, grid),
  };
}
