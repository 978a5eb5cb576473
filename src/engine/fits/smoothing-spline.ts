import type { CellGrid } from '../grid/cell-grid.ts';
import { solveBandedCholesky } from '../numeric/banded-cholesky.ts';
import { bendingPenalty } from './bending-penalty.ts';
import { addDesignRow, cellDesign, designTimes } from './cell-design.ts';
import { foldNormalEquations } from './normal-equations.ts';
import { solveNormalEquations } from './solve-normal-equations.ts';
import { type SplineSpans, splineBasis } from './spline-basis.ts';
import { pixelAspect } from './spline-spans.ts';
import type { UsableCells } from './usable-cells.ts';

/** Smooths values at the usable cells by one and the same spline again and again. */
export interface SmoothingSpline {
  /** The smoothed values, one a usable cell. */
  smooth(values: Float64Array): Float64Array;
}

/** Prepares a spline of one stiffness in which every cell has the weight given; mean weight 1. */
export function smoothingSpline(
  grid: CellGrid,
  cells: UsableCells,
  weight: Float64Array,
  spans: SplineSpans,
  stiffness: number,
): SmoothingSpline {
  const basis = splineBasis(grid.region, spans);
  const design = cellDesign(basis, cells);
  const [equations] = foldNormalEquations(design, weight, [], new Int32Array(cells.count), 1);
  const penalty = {
    matrix: bendingPenalty(basis, spans, pixelAspect(grid, spans)),
    strength: (stiffness * cells.count) / basis.size,
  };
  const { factor } = solveNormalEquations(equations!, basis, { penalty });
  const coefficients = new Float64Array(basis.size);
  return {
    smooth(values) {
      coefficients.fill(0);
      for (let at = 0; at < cells.count; at++)
        addDesignRow(design, weight[at]! * values[at]!, at, coefficients);
      solveBandedCholesky(factor, basis, coefficients);
      const result = new Float64Array(cells.count);
      for (let at = 0; at < cells.count; at++) result[at] = designTimes(design, coefficients, at);
      return result;
    },
  };
}
