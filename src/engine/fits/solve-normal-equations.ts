import { factorBandedCholesky, solveBandedCholesky } from '../numeric/banded-cholesky.ts';
import { addTo, type NormalEquations } from './normal-equations.ts';
import type { SurfaceBasis } from './surface-basis.ts';

export interface Penalty {
  readonly matrix: Float64Array;
  readonly strength: number;
}

export interface SolveOptions {
  readonly penalty?: Penalty | null;
  /** A part of the equations to be left out. */
  readonly without?: NormalEquations | null;
  /** Room for the factor, overwritten; a new one where left out. */
  readonly factor?: Float64Array;
}

/**
 * Share of the mean diagonal added to every diagonal element. It tells the fit what to do where the cells say
 * nothing (all in one row, a whole fold's worth missing): keep to zero slope; elsewhere it changes nothing.
 */
const RIDGE = 1e-11;

/** Coefficients for each side, and the factor they came by. */
export function solveNormalEquations(
  { matrix, sides }: NormalEquations,
  basis: SurfaceBasis,
  { penalty = null, without = null, factor = new Float64Array(matrix.length) }: SolveOptions = {},
): { coefficients: Float64Array[]; factor: Float64Array } {
  const { size, halfBandwidth } = basis;
  factor.set(matrix);
  if (without) addTo(factor, without.matrix, -1);
  let trace = 0;
  for (let i = 0; i < size; i++) trace += factor[(i + 1) * halfBandwidth + i]!;
  if (penalty) addTo(factor, penalty.matrix, penalty.strength);
  for (let i = 0; i < size; i++) factor[(i + 1) * halfBandwidth + i]! += (RIDGE * trace) / size;
  factorBandedCholesky(factor, basis);
  const coefficients = sides.map((side, number) => {
    const solution = side.slice();
    if (without) addTo(solution, without.sides[number]!, -1);
    solveBandedCholesky(factor, basis, solution);
    return solution;
  });
  return { coefficients, factor };
}
