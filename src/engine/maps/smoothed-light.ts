import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { smoothChannels } from './colour-of-cells.ts';
import { cellSmoother } from './smooth-cells.ts';

/** Linear light of a grid's smoothed cells; NaN where there is no figure. */
export function smoothedLight({ columns, rows, light }: CellGrid): CellChannels {
  const empty = () => new Float64Array(columns * rows);
  const smoothed = { red: empty(), green: empty(), blue: empty() };
  smoothChannels(cellSmoother(columns, rows, light.green), light, smoothed);
  return smoothed;
}
