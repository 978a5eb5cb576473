import type { CellGrid } from '../grid/cell-grid.ts';
import { cellSmoother } from '../maps/smooth-cells.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import { gainsAt } from './gain-lattice.ts';
import type { GainLattice } from './profile.ts';
import { luminanceOf } from './target-light.ts';

/**
 * Spread in stops of luminance over the smoothed cells once the gains are applied to every cell; cells without a
 * measurement do not count. 0 where there is none at all.
 */
export function residualSpreadEv(grid: CellGrid, lattice: GainLattice): number {
  const { columns, rows, light } = grid;
  const luminance = light.green.map((_, at) => {
    const { x, y } = cellCentre(grid, at);
    const [red, green, blue] = gainsAt(lattice, x, y);
    return luminanceOf(
      [light.red[at]! * 2 ** red, light.green[at]! * 2 ** green, light.blue[at]! * 2 ** blue],
      grid,
    );
  });
  const smoothed = new Float64Array(luminance.length);
  cellSmoother(columns, rows, luminance).smooth(luminance, smoothed);
  let highest = 0;
  let lowest = Number.POSITIVE_INFINITY;
  for (const value of smoothed) {
    if (!(value > 0)) continue; // NaN compares false
    highest = Math.max(highest, value);
    lowest = Math.min(lowest, value);
  }
  return highest > 0 ? Math.log2(highest / lowest) : 0;
}
