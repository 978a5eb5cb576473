import type { CellGrid } from '../grid/cell-grid.ts';
import { solveBandedCholesky } from '../numeric/banded-cholesky.ts';
import { quantile } from '../numeric/quantile.ts';
import { bendingPenalty } from './bending-penalty.ts';
import { addDesignRow, cellDesign, designTimes } from './cell-design.ts';
import { foldNormalEquations } from './normal-equations.ts';
import { runningMedian } from './running-median.ts';
import { solveNormalEquations } from './solve-normal-equations.ts';
import { splineBasis } from './spline-basis.ts';
import { pixelAspect, splineSpans } from './spline-spans.ts';
import type { UsableCells } from './usable-cells.ts';

/** Supple enough to follow a hot spot of a tenth of the frame's width, too stiff to follow specks. */
const STIFFNESS = 0.01;
/** Dust and creases up to three cells wide don't bend the first fit. */
const MEDIAN_REACH_CELLS = 3;
const HUBER_ROUNDS = 3;
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
 *
 * Each round fits anew to the last fit plus trust × misfit, which has the same answer as a fit with cells weighted
 * by their trust and needs one factorisation for all rounds (pseudo-values: P. Huber, as below).
 */
export function outlierTrust(grid: CellGrid, cells: UsableCells): Float64Array {
  const { count, log2Luminance, sigmaEv } = cells;
  const trust = new Float64Array(count).fill(1);
  const spans = splineSpans(grid, count);
  if (!spans) return trust;
  const basis = splineBasis(grid.region, spans);
  const design = cellDesign(basis, cells);
  const weight = new Float64Array(count);
  weighCells(cells, trust, weight);
  const believed = log2Luminance.slice();
  const [equations] = foldNormalEquations(design, weight, [believed], new Int32Array(count), 1);
  const penalty = {
    matrix: bendingPenalty(basis, spans, pixelAspect(grid, spans)),
    strength: (STIFFNESS * count) / basis.size,
  };
  const { factor, coefficients } = solveNormalEquations(equations!, basis, { penalty });
  const surface = coefficients[0]!;
  const refit = () => {
    surface.fill(0);
    for (let at = 0; at < count; at++) addDesignRow(design, weight[at]! * believed[at]!, at, surface);
    solveBandedCholesky(factor, basis, surface);
  };
  const fitted = new Float64Array(count);
  const misfit = new Float64Array(count);
  const compare = () => {
    for (let at = 0; at < count; at++) {
      fitted[at] = designTimes(design, surface, at);
      misfit[at] = log2Luminance[at]! - fitted[at]!;
    }
  };
  compare();
  const smoothMisfit = withoutSpecks(grid, cells, misfit);
  for (let at = 0; at < count; at++) believed[at] = fitted[at]! + smoothMisfit[at]!;
  refit();
  const deviations = new Float64Array(count);
  for (let round = 1; ; round++) {
    compare();
    for (let at = 0; at < count; at++) deviations[at] = Math.abs(misfit[at]!) / sigmaEv[at]!;
    // never below what noise and misfit allow, or a frame without noise would distrust its own light
    const scale = Math.max(1, SIGMA_OVER_MEDIAN * quantile(deviations, 0.5));
    for (let at = 0; at < count; at++) {
      const deviation = deviations[at]! / scale;
      trust[at] = round <= HUBER_ROUNDS ? huber(deviation) : bisquare(deviation);
      believed[at] = fitted[at]! + trust[at]! * misfit[at]!;
    }
    if (round === HUBER_ROUNDS + BISQUARE_ROUNDS) return trust;
    refit();
  }
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

function withoutSpecks(
  { columns, rows }: CellGrid,
  { cell }: UsableCells,
  values: Float64Array,
): Float64Array {
  const map = new Float64Array(columns * rows).fill(Number.NaN);
  for (let at = 0; at < cell.length; at++) map[cell[at]!] = values[at]!;
  const medians = runningMedian(map, columns, rows, MEDIAN_REACH_CELLS);
  return values.map((_, at) => medians[cell[at]!]!);
}

function huber(deviation: number): number {
  return deviation <= HUBER_LIMIT ? 1 : HUBER_LIMIT / deviation;
}

function bisquare(deviation: number): number {
  return deviation >= BISQUARE_LIMIT ? 0 : (1 - (deviation / BISQUARE_LIMIT) ** 2) ** 2;
}
