import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import { polynomialBasis } from './polynomial-basis.ts';
import { radialBasis } from './radial-basis.ts';
import { splineBasis } from './spline-basis.ts';
import type { Surface } from './surface.ts';
import type { SurfaceBasis } from './surface-basis.ts';

/** Log2 light of the surface at the centre of every cell of the grid, measured or not. */
export function surfaceAtCells(surface: Surface, grid: CellGrid): CellChannels {
  const x = new Float64Array(grid.columns * grid.rows);
  const y = new Float64Array(x.length);
  for (let at = 0; at < x.length; at++) {
    const centre = cellCentre(grid, at);
    x[at] = centre.x;
    y[at] = centre.y;
  }
  return surfaceAtPoints(surface, x, y);
}

/** Log2 light of the surface at any number of points of the frame. A spline stays at its edge's value outside the region. */
export function surfaceAtPoints(surface: Surface, x: ArrayLike<number>, y: ArrayLike<number>): CellChannels {
  const basis = basisOf(surface);
  const { runs, runLength, runStride } = basis;
  const values = new Float64Array(runs * runLength);
  const red = new Float64Array(x.length);
  const green = new Float64Array(x.length);
  const blue = new Float64Array(x.length);
  for (let at = 0; at < x.length; at++) {
    const first = basis.write(x[at]!, y[at]!, values, 0);
    for (let k = 0; k < values.length; k++) {
      const term = first + Math.floor(k / runLength) * runStride + (k % runLength);
      red[at]! += values[k]! * surface.red[term]!;
      green[at]! += values[k]! * surface.green[term]!;
      blue[at]! += values[k]! * surface.blue[term]!;
    }
  }
  return { red, green, blue };
}

function basisOf(surface: Surface): SurfaceBasis {
  switch (surface.name) {
    case 'plane':
      return polynomialBasis(surface.region, 1);
    case 'quadratic':
      return polynomialBasis(surface.region, 2);
    case 'radial':
      return radialBasis(surface.region, surface.regionAspect, surface.centre);
    case 'set':
    case 'spline':
      return splineBasis(surface.region, surface);
  }
}
