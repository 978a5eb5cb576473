import type { FrameRectangle } from '../reading.ts';
import { cellDesign } from './cell-design.ts';
import type { FittingCells } from './fitting-cells.ts';
import { foretell } from './foretell.ts';
import { heldOutError } from './held-out-error.ts';
import { foldNormalEquations, sumNormalEquations } from './normal-equations.ts';
import { polynomialBasis } from './polynomial-basis.ts';
import { solveNormalEquations } from './solve-normal-equations.ts';
import type { Surface } from './surface.ts';

/** Fits the plane or the quadratic. Where the cells all lie in one line, the slope across it is zero. */
export function fitPolynomial(
  region: FrameRectangle,
  cells: FittingCells,
  name: 'plane' | 'quadratic',
): Surface {
  const basis = polynomialBasis(region, name === 'plane' ? 1 : 2);
  const design = cellDesign(basis, cells);
  const { red, green, blue } = cells.log2Light;
  const parts = foldNormalEquations(design, cells.weight, [red, green, blue], cells.fold, cells.folds);
  const total = sumNormalEquations(parts);
  const { coefficients } = solveNormalEquations(total, basis);
  return {
    name,
    terms: basis.size,
    region,
    ...heldOutError(cells, foretell(cells, design, parts, total)),
    red: coefficients[0]!,
    green: coefficients[1]!,
    blue: coefficients[2]!,
  };
}
