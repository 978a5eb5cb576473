import type { CellGrid } from '../grid/cell-grid.ts';
import { undithered } from './undithered-step.ts';

/** Up to this size a cell holds about one block of a JPEG; larger ones average several. */
const JPEG_CELL_PX = 12;

/**
 * What rounding to codes draws in the cells where no noise dithers it, in stops: so many of its steps, of a JPEG's own
 * where it is one (it keeps little noise, and codes in whole blocks).
 */
export function leftByRounding(
  grid: CellGrid,
  steps: { readonly plain: number; readonly jpeg: number },
): number {
  const pixelNoise = grid.fine?.spectrum?.pixelNoise ?? null;
  if (!grid.jpegDcSteps) return steps.plain * undithered({ grid, pixelNoise });
  const averaged = Math.min(1, JPEG_CELL_PX / grid.cellWidthPx);
  return steps.jpeg * averaged * undithered({ grid, pixelNoise: 0 });
}
