import type { CellGrid } from '../grid/cell-grid.ts';
import { evaluateLegendreSurface, fitLegendreSurface } from './legendre-surface.ts';

/** Farther than this a surface is not to be drawn on beyond what was seen. */
const FARTHEST_STOPS = 2;

/**
 * How far the hottest part lies above the clip level, in stops, 0 to 2: a quadratic through the strongest
 * channel of the cells that don't clip, drawn on into those that do. 0 where too little is left to draw on from:
 * the next take will tell.
 */
export function clippedOvershoot(grid: CellGrid): number {
  const { columns, rows, light, highlightShare, clipLight: [red, green, blue] = [1, 1, 1] } = grid;
  const strongest = highlightShare.map((share, cell) => {
    const level = Math.max(light.red[cell]! / red, light.green[cell]! / green, light.blue[cell]! / blue);
    return share > 0 || !(level > 0) ? Number.NaN : Math.log2(level);
  });
  const seen = strongest.reduce((count, value) => count + (Number.isNaN(value) ? 0 : 1), 0);
  if (seen < strongest.length / 4) return 0;
  const surface = fitLegendreSurface({ columns, rows, values: strongest }, 2);
  if (surface === null) return 0;
  let highest = 0;
  evaluateLegendreSurface(surface, columns, rows).forEach((value, cell) => {
    if (highlightShare[cell]! > 0 && value > highest) highest = value;
  });
  return Math.min(FARTHEST_STOPS, highest);
}
