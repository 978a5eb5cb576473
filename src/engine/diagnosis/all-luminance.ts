import type { CellGrid } from '../grid/cell-grid.ts';
import { cellLuminance } from './cell-luminance.ts';

/** Luminance of every cell with light, those too that were set aside because they do not continue their neighbours'. */
export function allLuminance(grid: CellGrid): Float64Array {
  return cellLuminance(grid).light.map((light, cell) => {
    const aside = grid.setAsideLuminance[cell]!;
    if (!Number.isNaN(light)) return light;
    return aside > 0 ? aside : Number.NaN;
  });
}
