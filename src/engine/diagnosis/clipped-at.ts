import type { CellGrid } from '../grid/cell-grid.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import type { FramePoint } from '../reading.ts';

/** Centre of the clipped highlights, each cell weighed by its share; `null` where nothing clips. */
export function clippedAt(grid: CellGrid): FramePoint | null {
  const { highlightShare } = grid;
  let sum = 0;
  let x = 0;
  let y = 0;
  for (let cell = 0; cell < highlightShare.length; cell++) {
    const share = highlightShare[cell]!;
    if (!(share > 0)) continue;
    sum += share;
    const centre = cellCentre(grid, cell);
    x += share * centre.x;
    y += share * centre.y;
  }
  if (sum === 0) return null;
  return { x: x / sum, y: y / sum };
}
