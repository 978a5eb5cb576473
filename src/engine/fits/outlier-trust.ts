import type { CellGrid } from '../grid/cell-grid.ts';
import { quantile } from '../numeric/quantile.ts';
import { runningMedian } from './running-median.ts';
import { smoothingSpline } from './smoothing-spline.ts';
import { FINE_CELLS_PER_SPAN, splineSpans, USUAL_CELLS_PER_SPAN } from './spline-spans.ts';
import type { UsableCells } from './usable-cells.ts';

/** Supple enough that a few rounds follow any light, too stiff to follow specks. */
const STIFFNESS = 0.01;
const USUAL_ROUNDS = 3;
const FINE_ROUNDS = 6;
/** What is up to three cells wide, dust or a crease, is no part of smooth light. */
const MEDIAN_REACH_CELLS = 3;
/** 95 % efficient for normal errors: A. Beaton and J. Tukey, Technometrics 16, 1974 (cited from memory). */
const BISQUARE_LIMIT = 4.685;
/** Fainter ones bend a surface by less than a hundredth of a stop, and are not to be told from a spline's misfit. */
const FAINTEST_SPECK_EV = 0.05;
/** Standard deviation of a normal variable over its median absolute value. */
const SIGMA_OVER_MEDIAN = 1.4826;

/**
 * How far each usable cell fits smooth light, 0 (dust, a crease, an edge) to 1. Judged against a supple spline of
 * the luminance, and what medians of its misfit add to it, and not against the surface that is then fitted: so a
 * plane can't call a hot spot dust. All 1 where the grid is too small to tell.
 */
export function outlierTrust(grid: CellGrid, cells: UsableCells): Float64Array {
  const { count, log2Luminance } = cells;
  const trust = new Float64Array(count).fill(1);
  const usualSpans = splineSpans(grid, count, USUAL_CELLS_PER_SPAN);
  const fineSpans = splineSpans(grid, count, FINE_CELLS_PER_SPAN);
  if (!usualSpans || !fineSpans) return trust;
  const weight = new Float64Array(count);
  weighCells(cells, trust, weight);

  const usual = smoothingSpline(grid, cells, weight, usualSpans, STIFFNESS);
  let fitted = usual.smooth(log2Luminance);
  if (!judge(grid, cells, fitted, trust)) return trust;
  // specks have bent this surface: begin again from what is left when medians take them out
  const misfit = log2Luminance.map((value, at) => value - fitted[at]!);
  const smooth = withoutSpecks(grid, cells, misfit);
  fitted = usual.smooth(fitted.map((value, at) => value + smooth[at]!));
  // from now on a round adds what the trusted cells still lack, so that no stiffness holds light back for good
  let spline = usual;
  for (let round = 0; round < USUAL_ROUNDS + FINE_ROUNDS; round++) {
    if (round === USUAL_ROUNDS) spline = smoothingSpline(grid, cells, weight, fineSpans, STIFFNESS);
    if (!judge(grid, cells, fitted, trust)) return trust;
    const lacking = spline.smooth(log2Luminance.map((value, at) => trust[at]! * (value - fitted[at]!)));
    for (let at = 0; at < count; at++) fitted[at]! += lacking[at]!;
  }
  judge(grid, cells, fitted, trust);
  return trust;
}

/** Writes each cell's trust; true where any cell has none. */
function judge(grid: CellGrid, cells: UsableCells, fitted: Float64Array, trust: Float64Array): boolean {
  const { count, log2Luminance, sigmaEv } = cells;
  const misfit = new Float64Array(count);
  for (let at = 0; at < count; at++) misfit[at] = log2Luminance[at]! - fitted[at]!;
  const smooth = withoutSpecks(grid, cells, misfit);
  const sigmas = new Float64Array(count);
  for (let at = 0; at < count; at++) sigmas[at] = Math.abs(misfit[at]! - smooth[at]!) / sigmaEv[at]!;
  const limit = BISQUARE_LIMIT * SIGMA_OVER_MEDIAN * quantile(sigmas, 0.5);
  let lost = false;
  for (let at = 0; at < count; at++) {
    const share = sigmas[at]! / Math.max(limit, FAINTEST_SPECK_EV / sigmaEv[at]!);
    trust[at] = share < 1 ? (1 - share * share) ** 2 : 0;
    if (share >= 1) lost = true;
  }
  return lost;
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
