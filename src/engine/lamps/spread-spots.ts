import type { Measurement } from '../reading.ts';
import type { SpreadSpots } from './set-spread.ts';

/** Spots along the region's sides. */
const SPOTS_ACROSS = 11;

/** An even lattice from the centre of the first cell to that of the last, both ways. */
export function spreadSpots({ region, grid, frame }: Measurement, across = SPOTS_ACROSS): SpreadSpots {
  const aspect = frame.heightPx / frame.widthPx;
  const down = Math.max(2, Math.round((across * grid.rows) / grid.columns));
  const x = new Float64Array(across * down);
  const y = new Float64Array(across * down);
  for (let i = 0; i < x.length; i++) {
    const inward = (k: number, of: number, cells: number) => (0.5 + (k / (of - 1)) * (cells - 1)) / cells;
    const atX = inward(i % across, across, grid.columns);
    const atY = inward(Math.floor(i / across), down, grid.rows);
    x[i] = region.left + atX * (region.right - region.left) - 0.5;
    y[i] = (region.top + atY * (region.bottom - region.top) - 0.5) * aspect;
  }
  return { x, y };
}
