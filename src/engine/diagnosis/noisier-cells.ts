import type { CellGrid } from '../grid/cell-grid.ts';
import { oncePerGrid } from '../grid/once-per-grid.ts';
import { quantile } from '../numeric/quantile.ts';
import { cellLuminance } from './cell-luminance.ts';

/** A texture scatters pixels too: more than this is none of noise's doing within one frame. */
const LARGEST_FACTOR = 3;

/** How much noisier each cell is than the frame's middle one, as a share of its light: darker cells are. At least 1. */
export const noisierCells = oncePerGrid((grid: CellGrid): Float64Array => {
  const { light, scatter } = cellLuminance(grid);
  const relative = scatter.map((value, cell) => value / light[cell]! / Math.sqrt(grid.pixels[cell]!));
  const middle = quantile(relative, 0.5);
  return relative.map((value) => Math.min(LARGEST_FACTOR, Math.max(1, value / middle)) || 1);
});
