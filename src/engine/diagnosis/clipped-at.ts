import type { CellGrid } from '../grid/cell-grid.ts';
import type { FramePoint } from '../reading.ts';

/** Centre of the clipped highlights, each cell weighed by its share; `null` where nothing clips. */
export function clippedAt(grid: CellGrid): FramePoint | null {
  const { columns, rows, region, highlightShare } = grid;
  let sum = 0;
  let x = 0;
  let y = 0;
  for (let cell = 0; cell < columns * rows; cell++) {
    const share = highlightShare[cell]!;
    if (!(share > 0)) continue;
    sum += share;
    x += share * ((cell % columns) + 0.5);
    y += share * (Math.floor(cell / columns) + 0.5);
  }
  if (sum === 0) return null;
  return {
    x: region.left + (x / sum / columns) * (region.right - region.left),
    y: region.top + (y / sum / rows) * (region.bottom - region.top),
  };
}
