import type { CellGrid } from '../grid/cell-grid.ts';
import { quantile } from '../numeric/quantile.ts';
import { bendingPenalty } from './bending-penalty.ts';
import { cellDesign, designTimes } from './cell-design.ts';
import { foldNormalEquations } from './normal-equations.ts';
import { solveNormalEquations } from './solve-normal-equations.ts';
import { splineBasis } from './spline-basis.ts';
import { pixelAspect, splineSpans } from './spline-spans.ts';
import type { UsableCells } from './usable-cells.ts';

/** Supple enough to follow any light, too stiff to follow a crease of a cell or two. */
const STIFFNESS = 0.1;
const HUBER_ROUNDS = 6;
const BISQUARE_ROUNDS = 3;
/** 95 % efficient for normal errors: P. Huber, "Robust Statistics", Wiley 1981 (cited from memory). */
const HUBER_LIMIT = 1.345;
/** 95 % efficient for normal errors: A. Beaton and J. Tukey, Technometrics 16, 1974 (cited from memory). */
const BISQUARE_LIMIT = 4.685;
/** Standard deviation of a normal variable over its median absolute value. */
const SIGMA_OVER_MEDIAN = 1.4826;

/**
 * How far each usable cell fits smooth light, 0 (dust, a crease, an edge) to 1. Judged against a supple spline of
 * the luminance and not against the surface that is then fitted, so that a plane can't call a hot spot dust. All 1
 * where the grid is too small to tell.
 */
export function outlierTrust(grid: CellGrid, cells: UsableCells): Float64Array {
  const trust = new Float64Array(cells.count).fill(1);
  const spans = splineSpans(grid, cells.count);
  if (!spans) return trust;
  const basis = splineBasis(grid.region, spans);
  const penalty = {
    matrix: bendingPenalty(basis, spans, pixelAspect(grid, spans)),
    strength: (STIFFNESS * cells.count) / basis.size,
  };
  const design = cellDesign(basis, cells);
  const weights = new Float64Array(cells.count);
  const deviations = new Float64Array(cells.count);
  const oneFold = new Int32Array(cells.count);
  const targets = [cells.log2Luminance];
  for (let round = 0; round < HUBER_ROUNDS + BISQUARE_ROUNDS; round++) {
    weighCells(cells, trust, weights);
    const [equations] = foldNormalEquations(design, weights, targets, oneFold, 1);
    const { coefficients } = solveNormalEquations(equations!, basis, penalty);
    for (let at = 0; at < cells.count; at++) {
      const misfit = cells.log2Luminance[at]! - designTimes(design, coefficients[0]!, at);
      deviations[at] = Math.abs(misfit) / cells.sigmaEv[at]!;
    }
    // never below what noise and misfit allow, or a frame without noise would distrust its own light
    const scale = Math.max(1, SIGMA_OVER_MEDIAN * quantile(deviations, 0.5));
    for (let at = 0; at < cells.count; at++) {
      const deviation = deviations[at]! / scale;
      trust[at] = round < HUBER_ROUNDS ? huber(deviation) : bisquare(deviation);
    }
  }
  return trust;
}

/** Writes trust over variance into `weights`, brought to mean 1. */
export function weighCells(cells: UsableCells, trust: Float64Array, weights: Float64Array): void {
  let sum = 0;
  for (let at = 0; at < cells.count; at++) {
    weights[at] = trust[at]! / cells.sigmaEv[at]! ** 2;
    sum += weights[at]!;
  }
  for (let at = 0; at < cells.count; at++) weights[at]! *= cells.count / sum;
}

function huber(deviation: number): number {
  return deviation <= HUBER_LIMIT ? 1 : HUBER_LIMIT / deviation;
}

function bisquare(deviation: number): number {
  return deviation >= BISQUARE_LIMIT ? 0 : (1 - (deviation / BISQUARE_LIMIT) ** 2) ** 2;
}
