import type { CellGrid } from '../grid/cell-grid.ts';
import { bandedInverse, bandedProductTrace } from '../numeric/banded-inverse.ts';
import { bendingPenalty } from './bending-penalty.ts';
import { cellDesign } from './cell-design.ts';
import type { FittingCells } from './fitting-cells.ts';
import { foretell } from './foretell.ts';
import { heldOutError } from './held-out-error.ts';
import { foldNormalEquations, sumNormalEquations } from './normal-equations.ts';
import { solveNormalEquations } from './solve-normal-equations.ts';
import { type SplineSpans, splineBasis } from './spline-basis.ts';
import { pixelAspect } from './spline-spans.ts';
import type { Surface } from './surface.ts';

/** From a surface free to follow every span to one that is all but a plane. */
const STIFFNESSES = [0.001, 0.03, 1, 30, 1000];

/** Fits the smooth spline whose stiffness foretells held-out cells best. */
export function fitSpline(grid: CellGrid, cells: FittingCells, spans: SplineSpans): Surface {
  const basis = splineBasis(grid.region, spans);
  const design = cellDesign(basis, cells);
  const { red, green, blue } = cells.log2Light;
  const parts = foldNormalEquations(design, cells.weight, [red, green, blue], cells.fold, cells.folds);
  const total = sumNormalEquations(parts);
  const matrix = bendingPenalty(basis, spans, pixelAspect(grid, spans));
  const trials = STIFFNESSES.map((stiffness) => {
    const penalty = { matrix, strength: (stiffness * cells.count) / basis.size };
    return { stiffness, penalty, error: heldOutError(cells, foretell(cells, design, parts, total, penalty)) };
  });
  const best = trials.reduce((a, b) => (b.error.heldOutEv < a.error.heldOutEv ? b : a));
  const { coefficients, factor } = solveNormalEquations(total, basis, best.penalty);
  return {
    name: 'spline',
    terms: bandedProductTrace(bandedInverse(factor, basis), total.matrix, basis),
    region: grid.region,
    ...best.error,
    ...spans,
    stiffness: best.stiffness,
    red: coefficients[0]!,
    green: coefficients[1]!,
    blue: coefficients[2]!,
  };
}
