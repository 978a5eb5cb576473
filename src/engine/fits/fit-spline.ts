import type { CellGrid } from '../grid/cell-grid.ts';
import { bandedInverse, bandedProductTrace } from '../numeric/banded-inverse.ts';
import { bendingPenalty } from './bending-penalty.ts';
import { cellDesign } from './cell-design.ts';
import type { FittingCells } from './fitting-cells.ts';
import { foretell } from './foretell.ts';
import { type HeldOutError, heldOutError } from './held-out-error.ts';
import { foldNormalEquations, type NormalEquations, sumNormalEquations } from './normal-equations.ts';
import { type Penalty, solveNormalEquations } from './solve-normal-equations.ts';
import { type SplineSpans, splineBasis } from './spline-basis.ts';
import { FINE_CELLS_PER_SPAN, pixelAspect, splineSpans, USUAL_CELLS_PER_SPAN } from './spline-spans.ts';
import type { Surface } from './surface.ts';
import type { SurfaceBasis } from './surface-basis.ts';

/** From a surface that is all but a plane to one free to follow every span. */
const STIFFNESSES = [1000, 30, 1, 0.03, 0.001];
/** Where the supplest spline still errs by more than this, the light may have a rim that finer spans follow. */
const WORTH_REFINING_EV = 0.003;

/** Fits the smooth spline whose stiffness, and where it is worth it fineness, foretells held-out cells best. */
export function fitSpline(grid: CellGrid, cells: FittingCells): Surface | null {
  const usual = splineSpans(grid, cells.count, USUAL_CELLS_PER_SPAN);
  const fine = splineSpans(grid, cells.count, FINE_CELLS_PER_SPAN);
  if (!usual || !fine) return null;
  const best = bestOf(grid, cells, usual, STIFFNESSES);
  const supplest = STIFFNESSES[STIFFNESSES.length - 1]!;
  if (best.stiffness > supplest || best.error.heldOutEv < WORTH_REFINING_EV) return surfaceOf(grid, best);
  const finer = bestOf(grid, cells, fine, [supplest]);
  return surfaceOf(grid, finer.error.heldOutEv < best.error.heldOutEv ? finer : best);
}

interface SplineFit {
  readonly basis: SurfaceBasis;
  readonly spans: SplineSpans;
  readonly total: NormalEquations;
  readonly stiffness: number;
  readonly penalty: Penalty;
  readonly error: HeldOutError;
}

function bestOf(
  grid: CellGrid,
  cells: FittingCells,
  spans: SplineSpans,
  stiffnesses: readonly number[],
): SplineFit {
  const basis = splineBasis(grid.region, spans);
  const design = cellDesign(basis, cells);
  const { red, green, blue } = cells.log2Light;
  const parts = foldNormalEquations(design, cells.weight, [red, green, blue], cells.fold, cells.folds);
  const total = sumNormalEquations(parts);
  const matrix = bendingPenalty(basis, spans, pixelAspect(grid, spans));
  let best: SplineFit | null = null;
  for (const stiffness of stiffnesses) {
    const penalty = { matrix, strength: (stiffness * cells.count) / basis.size };
    const error = heldOutError(cells, foretell(cells, design, parts, total, penalty));
    if (best && error.heldOutEv > best.error.heldOutEv) break; // what is suppler only follows more of the noise
    best = { basis, spans, total, stiffness, penalty, error };
  }
  if (!best) throw new RangeError('there is no stiffness to try');
  return best;
}

function surfaceOf(
  { region }: CellGrid,
  { basis, spans, total, stiffness, penalty, error }: SplineFit,
): Surface {
  const { coefficients, factor } = solveNormalEquations(total, basis, { penalty });
  return {
    name: 'spline',
    terms: bandedProductTrace(bandedInverse(factor, basis), total.matrix, basis),
    region,
    ...error,
    ...spans,
    stiffness,
    red: coefficients[0]!,
    green: coefficients[1]!,
    blue: coefficients[2]!,
  };
}
