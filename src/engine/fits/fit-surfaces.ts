import type { CellGrid } from '../grid/cell-grid.ts';
import { fitPolynomial } from './fit-polynomial.ts';
import { fitRadial } from './fit-radial.ts';
import { fitSpline } from './fit-spline.ts';
import { fittingCells } from './fitting-cells.ts';
import type { Surface } from './surface.ts';

/** Two cells a term, so that a fit that has a fold held out still has more cells than terms. */
const FEWEST_FOR_SIX_TERMS = 12;
const FEWEST_ALONG_FOR_CURVES = 3;

/**
 * Fits every family that the grid has cells enough for to the log2 light of each channel, simplest first: plane,
 * quadratic, radial, spline. Cells without a measurement and clipped ones have no part; dust, creases and edges
 * next to none.
 *
 * @throws {@link EngineError} `too-small` where fewer than three cells can be used.
 */
export function fitSurfaces(grid: CellGrid): Surface[] {
  const cells = fittingCells(grid);
  const surfaces = [fitPolynomial(grid.region, cells, 'plane')];
  if (cells.count >= FEWEST_FOR_SIX_TERMS && Math.min(grid.columns, grid.rows) >= FEWEST_ALONG_FOR_CURVES) {
    surfaces.push(fitPolynomial(grid.region, cells, 'quadratic'), fitRadial(grid, cells));
  }
  const spline = fitSpline(grid, cells);
  if (spline) surfaces.push(spline);
  return surfaces;
}
