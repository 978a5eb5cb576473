import { surfaceAtCells } from '../fits/evaluate-surface.ts';
import type { Surface } from '../fits/surface.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { luminanceOf } from './target-light.ts';

/**
 * What a surface leaves over of each cell, in stops of luminance: measured light over the surface's. NaN where nothing
 * was measured, and where a surface's colours mix to no light at all.
 */
export function leftOverEv(grid: CellGrid, surface: Surface): Float64Array {
  const { red, green, blue } = surfaceAtCells(surface, grid);
  const { light } = grid;
  return light.green.map((_, at) => {
    const measured = luminanceOf([light.red[at]!, light.green[at]!, light.blue[at]!], grid);
    const foretold = luminanceOf([2 ** red[at]!, 2 ** green[at]!, 2 ** blue[at]!], grid);
    const ratio = measured / foretold;
    return ratio > 0 ? Math.log2(ratio) : Number.NaN;
  });
}
