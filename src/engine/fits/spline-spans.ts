import type { CellGrid } from '../grid/cell-grid.ts';
import type { SplineSpans } from './spline-basis.ts';

/** Fine enough that a hot spot of a tenth of the frame's width is followed to a few thousandths of a stop. */
export const USUAL_CELLS_PER_SPAN = 6;
/** Fine enough for the rim of a shadow, where the light's slope changes at once. */
export const FINE_CELLS_PER_SPAN = 4;
const FEWEST_CELLS_ALONG = 4;
const FEWEST_USABLE_CELLS = 32;

/** Intervals of a spline of so many cells a span; null where the grid has too few cells for any. */
export function splineSpans(
  { columns, rows }: CellGrid,
  usableCells: number,
  cellsPerSpan: number,
): SplineSpans | null {
  if (Math.min(columns, rows) < FEWEST_CELLS_ALONG || usableCells < FEWEST_USABLE_CELLS) return null;
  return {
    spansAcross: Math.max(1, Math.round(columns / cellsPerSpan)),
    spansDown: Math.max(1, Math.round(rows / cellsPerSpan)),
  };
}

/** Width over height, in pixels, of the region; of a span with `spans` given. */
export function pixelAspect(grid: CellGrid, spans?: SplineSpans): number {
  const region = (grid.cellWidthPx * grid.columns) / (grid.cellHeightPx * grid.rows);
  return spans ? (region * spans.spansDown) / spans.spansAcross : region;
}
