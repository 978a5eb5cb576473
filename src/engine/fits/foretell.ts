import { type CellDesign, designTimes } from './cell-design.ts';
import type { FittingCells } from './fitting-cells.ts';
import type { NormalEquations } from './normal-equations.ts';
import { type Penalty, solveNormalEquations } from './solve-normal-equations.ts';
import type { ChannelCoefficients } from './surface.ts';

/** Log2 light of every usable cell by the fit to the folds that it is not in. Sides are red, green, blue. */
export function foretell(
  cells: FittingCells,
  design: CellDesign,
  parts: readonly NormalEquations[],
  total: NormalEquations,
  penalty: Penalty | null = null,
): ChannelCoefficients {
  const foretold = emptyForecast(cells);
  const factor = new Float64Array(total.matrix.length);
  for (let fold = 0; fold < cells.folds; fold++) {
    const options = { penalty, without: parts[fold]!, factor };
    const { coefficients } = solveNormalEquations(total, design.basis, options);
    writeForecast(cells, design, coefficients, fold, foretold);
  }
  return foretold;
}

export function emptyForecast({ count }: FittingCells): ChannelCoefficients {
  return { red: new Float64Array(count), green: new Float64Array(count), blue: new Float64Array(count) };
}

/** Writes what coefficients for red, green and blue say of the cells of one fold into `foretold`. */
export function writeForecast(
  cells: FittingCells,
  design: CellDesign,
  [red, green, blue]: readonly Float64Array[],
  fold: number,
  foretold: ChannelCoefficients,
): void {
  for (let at = 0; at < cells.count; at++) {
    if (cells.fold[at] !== fold) continue;
    foretold.red[at] = designTimes(design, red!, at);
    foretold.green[at] = designTimes(design, green!, at);
    foretold.blue[at] = designTimes(design, blue!, at);
  }
}
