import type { CellGrid } from '../grid/cell-grid.ts';
import { choleskySolve } from '../numeric/cholesky-solve.ts';
import { nelderMead } from '../numeric/nelder-mead.ts';
import type { FramePoint, FrameRectangle } from '../reading.ts';
import { cellDesign } from './cell-design.ts';
import type { FittingCells } from './fitting-cells.ts';
import { emptyForecast, writeForecast } from './foretell.ts';
import { heldOutError } from './held-out-error.ts';
import { RADIAL_TERMS, radialBasis } from './radial-basis.ts';
import {
  foldRadialMoments,
  momentsWithout,
  normalEquationsAbout,
  type RadialMoments,
} from './radial-moments.ts';
import { pixelAspect } from './spline-spans.ts';
import type { Surface } from './surface.ts';

/** Where centres are first tried, from the region's middle in half widths and half heights. */
const TRIED = [-2.4, -1.6, -1.1, -0.8, -0.5, -0.25, 0, 0.25, 0.5, 0.8, 1.1, 1.6, 2.4];
const FARTHEST = 3;
const MOST_EVALUATIONS = 200;
/** As the ridge of the other families, for a centre so far off that the powers of s look alike. */
const RIDGE = 1e-13;

/** Fits 1, s, s², s³ about the one centre that leaves the least misfit in the three channels together. */
export function fitRadial(grid: CellGrid, cells: FittingCells): Surface {
  const { region } = grid;
  const regionAspect = pixelAspect(grid);
  const folds = foldRadialMoments(region, cells);
  const all = momentsWithout(folds, null);
  const whole = bestCentre(all, regionAspect, bestTried(all, regionAspect), { step: 0.1, tolerance: 1e-5 });
  const foretold = emptyForecast(cells);
  for (let fold = 0; fold < cells.folds; fold++) {
    const rest = momentsWithout(folds, fold);
    // near the best centre a shift of 0.002 changes the forecast by nothing that shows
    const fit = bestCentre(rest, regionAspect, whole.centre, { step: 0.02, tolerance: 0.002 });
    const design = cellDesign(radialBasis(region, regionAspect, framePoint(fit.centre, region)), cells);
    writeForecast(cells, design, fit.coefficients, fold, foretold);
  }
  return {
    name: 'radial',
    terms: RADIAL_TERMS + 2,
    region,
    ...heldOutError(cells, foretold),
    centre: framePoint(whole.centre, region),
    regionAspect,
    red: whole.coefficients[0]!,
    green: whole.coefficients[1]!,
    blue: whole.coefficients[2]!,
  };
}

/** The misfit has many valleys, each about as wide as the bright spot: look everywhere before going down. */
function bestTried(moments: RadialMoments, regionAspect: number): Float64Array {
  let best = new Float64Array(2);
  let most = Number.NEGATIVE_INFINITY;
  for (const p of TRIED) {
    for (const q of TRIED) {
      const centre = Float64Array.of(p, q);
      const { explained } = fitAbout(moments, regionAspect, centre);
      if (explained > most) {
        most = explained;
        best = centre;
      }
    }
  }
  return best;
}

function bestCentre(
  moments: RadialMoments,
  regionAspect: number,
  start: Float64Array,
  { step, tolerance }: { step: number; tolerance: number },
) {
  const objective = (centre: Float64Array) =>
    Math.max(Math.abs(centre[0]!), Math.abs(centre[1]!)) > FARTHEST
      ? Number.POSITIVE_INFINITY
      : -fitAbout(moments, regionAspect, centre).explained;
  const { at } = nelderMead(objective, start, step, tolerance, MOST_EVALUATIONS);
  return { centre: at, coefficients: fitAbout(moments, regionAspect, at).coefficients };
}

/** Coefficients about a centre (p, q), and the weighted sum of squares that they explain in all channels. */
function fitAbout(moments: RadialMoments, regionAspect: number, centre: Float64Array) {
  const { matrix, sides } = normalEquationsAbout(moments, regionAspect, centre[0]!, centre[1]!);
  let trace = 0;
  for (let i = 0; i < RADIAL_TERMS; i++) trace += matrix[i * RADIAL_TERMS + i]!;
  for (let i = 0; i < RADIAL_TERMS; i++) matrix[i * RADIAL_TERMS + i]! += RIDGE * trace;
  let explained = 0;
  const coefficients = sides.map((side) => {
    const solution = choleskySolve(matrix, side);
    for (let i = 0; i < RADIAL_TERMS; i++) explained += solution[i]! * side[i]!;
    return solution;
  });
  return { coefficients, explained };
}

function framePoint([p, q]: Float64Array, region: FrameRectangle): FramePoint {
  return {
    x: (region.left + region.right + p! * (region.right - region.left)) / 2,
    y: (region.top + region.bottom + q! * (region.bottom - region.top)) / 2,
  };
}
