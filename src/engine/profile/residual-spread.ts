import { surfaceAtCells } from '../fits/evaluate-surface.ts';
import type { Surface } from '../fits/surface.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import type { Vector3 } from '../numeric/matrix3.ts';
import { gainsAt } from './gain-lattice.ts';
import type { GainLattice } from './profile.ts';
import { luminanceOf } from './target-light.ts';

/**
 * Spread in stops of luminance that is left in the smoothed cells after the gains. `evMap` is a reading's; what the
 * gains do to luminance is taken at the surface's colour. 0 where no cell was measured.
 */
export function residualSpreadEv(
  evMap: readonly (number | null)[],
  surface: Surface,
  grid: CellGrid,
  lattice: GainLattice,
): number {
  const { columns, rows, region } = grid;
  const { red, green, blue } = surfaceAtCells(surface, grid);
  let highest = Number.NEGATIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  evMap.forEach((ev, at) => {
    if (ev === null) return;
    const x = region.left + (((at % columns) + 0.5) / columns) * (region.right - region.left);
    const y = region.top + ((Math.floor(at / columns) + 0.5) / rows) * (region.bottom - region.top);
    const gain = gainsAt(lattice, x, y);
    const before: Vector3 = [2 ** red[at]!, 2 ** green[at]!, 2 ** blue[at]!];
    const after: Vector3 = [
      2 ** (red[at]! + gain[0]),
      2 ** (green[at]! + gain[1]),
      2 ** (blue[at]! + gain[2]),
    ];
    const left = ev + Math.log2(luminanceOf(after, grid) / luminanceOf(before, grid));
    highest = Math.max(highest, left);
    lowest = Math.min(lowest, left);
  });
  return highest >= lowest ? highest - lowest : 0;
}
