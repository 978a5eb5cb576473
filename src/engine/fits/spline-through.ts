import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import { cellDesign } from './cell-design.ts';
import { foldNormalEquations, sumNormalEquations } from './normal-equations.ts';
import { solveNormalEquations } from './solve-normal-equations.ts';
import { type SplineSpans, splineBasis } from './spline-basis.ts';
import { FINE_CELLS_PER_SPAN, splineSpans } from './spline-spans.ts';
import type { ChannelCoefficients } from './surface.ts';

/**
 * The spline closest to smooth light that is known at the centre of every cell, measured or not: for light that follows
 * from something else, so that it can be told anywhere as a fitted surface is.
 *
 * @param log2Light one value a cell and channel, none of them NaN
 * @returns `null` where the grid has too few cells for a spline.
 */
export function splineThrough(
  grid: CellGrid,
  log2Light: CellChannels,
): (ChannelCoefficients & SplineSpans) | null {
  const count = grid.columns * grid.rows;
  const spans = splineSpans(grid, count, FINE_CELLS_PER_SPAN);
  if (!spans) return null;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  for (let at = 0; at < count; at++) {
    const centre = cellCentre(grid, at);
    x[at] = centre.x;
    y[at] = centre.y;
  }
  const basis = splineBasis(grid.region, spans);
  const design = cellDesign(basis, { count, x, y });
  const { red, green, blue } = log2Light;
  const weights = new Float64Array(count).fill(1);
  const parts = foldNormalEquations(design, weights, [red, green, blue], new Int32Array(count), 1);
  const { coefficients } = solveNormalEquations(sumNormalEquations(parts), basis);
  return { ...spans, red: coefficients[0]!, green: coefficients[1]!, blue: coefficients[2]! };
}
