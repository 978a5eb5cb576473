import type { CellGrid } from '../grid/cell-grid.ts';
import { bandedInverse, bandedProductTrace } from '../numeric/banded-inverse.ts';
import { bendingPenalty } from './bending-penalty.ts';
import { cellDesign } from './cell-design.ts';
import type { FittingCells } from './fitting-cells.ts';
import { foretell } from './foretell.ts';
import { type HeldOutError, heldOutError } from './held-out-error.ts';
import { foldNormalEquations, sumNormalEquations } from './normal-equations.ts';
import { type Penalty, solveNormalEquations } from './solve-normal-equations.ts';
import { type SplineSpans, splineBasis } from './spline-basis.ts';
import { pixelAspect } from './spline-spans.ts';
import type { Surface } from './surface.ts';

/** From a surface that is all but a plane to one free to follow every span. */
const STIFFNESSES = [1000, 30, 1, 0.03, 0.001];

/** Fits the smooth spline whose stiffness foretells held-out cells best. */
export function fitSpline(grid: CellGrid, cells: FittingCells, spans: SplineSpans): Surface {
  const basis = splineBasis(grid.region, spans);
  const design = cellDesign(basis, cells);
  const { red, green, blue } = cells.log2Light;
  const parts = foldNormalEquations(design, cells.weight, [red, green, blue], cells.fold, cells.folds);
  const total = sumNormalEquations(parts);
  const matrix = bendingPenalty(basis, spans, pixelAspect(grid, spans));
  let best: { stiffness: number; penalty: Penalty; error: HeldOutError } | null = null;
  for (const stiffness of STIFFNESSES) {
    const penalty = { matrix, strength: (stiffness * cells.count) / basis.size };
    const error = heldOutError(cells, foretell(cells, design, parts, total, penalty));
    if (best && error.heldOutEv > best.error.heldOutEv) break; // what is suppler still only follows more noise
    best = { stiffness, penalty, error };
  }
  if (!best) throw new RangeError('there is no stiffness to try');
  const { coefficients, factor } = solveNormalEquations(total, basis, { penalty: best.penalty });
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
