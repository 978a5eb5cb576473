import type { CellGrid } from '../grid/cell-grid.ts';
import { cellSmoother } from '../maps/smooth-cells.ts';
import { cellLuminance } from './cell-luminance.ts';

/**
 * How much smaller the spread of the smoothed cells is once a part of the light, in stops a cell, is taken out;
 * negative where that part hides some of the spread. NaN cells don't count; 0 where nothing is left to compare.
 */
export function fallWithout(grid: CellGrid, partEv: Float64Array): number {
  const { light } = cellLuminance(grid);
  const { smooth } = cellSmoother(grid.columns, grid.rows, light);
  const smoothed = new Float64Array(light.length);
  const spread = (values: Float64Array) => {
    smooth(values, smoothed);
    let low = Number.POSITIVE_INFINITY;
    let high = 0;
    for (const value of smoothed) {
      if (value < low) low = value; // NaN compares false
      if (value > high) high = value;
    }
    return low > 0 && high >= low ? Math.log2(high / low) : 0;
  };
  return spread(light) - spread(light.map((value, cell) => value * 2 ** -partEv[cell]!));
}
