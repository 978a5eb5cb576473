import { surfaceAtCells, surfaceAtPoints } from '../fits/evaluate-surface.ts';
import type { Surface } from '../fits/surface.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { placeInCells } from '../numeric/cell-centre.ts';
import type { Vector3 } from '../numeric/matrix3.ts';
import type { ProfileReference } from './profile.ts';

/**
 * The linear light that every part of the region is to be brought to: the surface's mean chromaticity, at its
 * brightest, mean or darkest luminance.
 */
export function targetLight(surface: Surface, grid: CellGrid, reference: ProfileReference): Vector3 {
  const { red, green, blue } = surfaceAtCells(surface, grid);
  const mean: Vector3 = [meanLight(red), meanLight(green), meanLight(blue)];
  if (reference === 'mean') return mean;
  const levels = edgeToEdge(surface, grid).map((light) => luminanceOf(light, grid));
  const pick = reference === 'brightest' ? Math.max : Math.min;
  const level = levels.reduce((a, b) => pick(a, b));
  const factor = level / luminanceOf(mean, grid);
  return [mean[0] * factor, mean[1] * factor, mean[2] * factor];
}

export function luminanceOf([red, green, blue]: Vector3, { toXyz }: Pick<CellGrid, 'toXyz'>): number {
  return toXyz[3] * red + toXyz[4] * green + toXyz[5] * blue;
}

function meanLight(log2Light: Float64Array): number {
  let sum = 0;
  for (const value of log2Light) sum += 2 ** value;
  return sum / log2Light.length;
}

/** Linear light at the corners of the cells, for extremes mostly lie on the region's edge. */
function edgeToEdge(surface: Surface, grid: CellGrid): Vector3[] {
  const x: number[] = [];
  const y: number[] = [];
  for (let row = 0; row <= grid.rows; row++) {
    for (let column = 0; column <= grid.columns; column++) {
      const corner = placeInCells(grid, column, row);
      x.push(corner.x);
      y.push(corner.y);
    }
  }
  const { red, green, blue } = surfaceAtPoints(surface, x, y);
  return x.map((_, at) => [2 ** red[at]!, 2 ** green[at]!, 2 ** blue[at]!]);
}
