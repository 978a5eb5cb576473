import type { CellGrid } from '../grid/cell-grid.ts';
import { choleskySolve } from '../numeric/cholesky-solve.ts';
import { nelderMead } from '../numeric/nelder-mead.ts';
import type { FramePoint, FrameRectangle } from '../reading.ts';
import { cellDesign } from './cell-design.ts';
import type { FittingCells } from './fitting-cells.ts';
import { emptyForecast, writeForecast } from './foretell.ts';
import { heldOutError } from './held-out-error.ts';
import {
  foldNormalEquations,
  type NormalEquations,
  sumNormalEquations,
  withoutPart,
} from './normal-equations.ts';
import { polynomialBasis } from './polynomial-basis.ts';
import { RADIAL_TERMS, radialBasis } from './radial-basis.ts';
import { radialInPolynomials } from './radial-in-polynomials.ts';
import { pixelAspect } from './spline-spans.ts';
import type { Surface } from './surface.ts';

/** How far from the region's middle a centre is looked for, in half widths and half heights. */
const FARTHEST = 3;
const SCANNED = [-2.4, -1.7, -1.2, -1, -0.8, -0.6, -0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.7, 2.4];
const STEP_FROM_SCAN = 0.1;
const STEP_FROM_WHOLE = 0.05;
const CENTRE_TOLERANCE = 1e-5;
const MOST_EVALUATIONS = 200;
/** As the ridge of the other families, for a centre so far off that the powers of s look alike. */
const RIDGE = 1e-13;

/**
 * Fits 1, s, s², s³ with a free centre. For a centre given, these are polynomials of degree 6 in p and q: the
 * normal equations of those, summed once, give the misfit about any centre without looking at the cells again.
 */
export function fitRadial(grid: CellGrid, cells: FittingCells): Surface {
  const { region } = grid;
  const regionAspect = pixelAspect(grid);
  const { red, green, blue } = cells.log2Light;
  const sextic = cellDesign(polynomialBasis(region, 2 * (RADIAL_TERMS - 1)), cells);
  const parts = foldNormalEquations(sextic, cells.weight, [red, green, blue], cells.fold, cells.folds);
  const total = sumNormalEquations(parts);
  const whole = bestCentre(total, regionAspect, scannedCentre(total, regionAspect), STEP_FROM_SCAN);
  const foretold = emptyForecast(cells);
  for (let fold = 0; fold < cells.folds; fold++) {
    const fit = bestCentre(withoutPart(total, parts[fold]!), regionAspect, whole.centre, STEP_FROM_WHOLE);
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

function bestCentre(equations: NormalEquations, regionAspect: number, start: Float64Array, step: number) {
  const objective = (centre: Float64Array) => -fitAbout(equations, regionAspect, centre).explained;
  const { at } = nelderMead(objective, start, step, CENTRE_TOLERANCE, MOST_EVALUATIONS);
  return { centre: at, ...fitAbout(equations, regionAspect, at) };
}

/** The misfit has many valleys, each about as wide as the bright spot: look everywhere before going down. */
function scannedCentre(equations: NormalEquations, regionAspect: number): Float64Array {
  let best = new Float64Array(2);
  let most = Number.NEGATIVE_INFINITY;
  for (const p of SCANNED) {
    for (const q of SCANNED) {
      const centre = Float64Array.of(p, q);
      const { explained } = fitAbout(equations, regionAspect, centre);
      if (explained > most) {
        most = explained;
        best = centre;
      }
    }
  }
  return best;
}

/** Coefficients about a centre (p, q), and the weighted sum of squares that they explain in all channels. */
function fitAbout(equations: NormalEquations, regionAspect: number, centre: Float64Array) {
  if (Math.max(Math.abs(centre[0]!), Math.abs(centre[1]!)) > FARTHEST) {
    return { coefficients: [], explained: Number.NEGATIVE_INFINITY };
  }
  const { matrix, sides } = radialInPolynomials(equations, regionAspect, centre[0]!, centre[1]!);
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
