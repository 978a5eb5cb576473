import { bandLength } from '../numeric/banded-cholesky.ts';
import { addDesignRow, type CellDesign } from './cell-design.ts';

/** Aᵀ·W·A as a band, and Aᵀ·W·y for each target. */
export interface NormalEquations {
  readonly matrix: Float64Array;
  readonly sides: readonly Float64Array[];
}

/**
 * Sums the normal equations of each fold's own cells in one pass; what a fold is fitted to is the total less its
 * own part. The matrix is shared by all targets.
 */
export function foldNormalEquations(
  design: CellDesign,
  weights: Float64Array,
  targets: readonly Float64Array[],
  fold: Int32Array,
  folds: number,
): NormalEquations[] {
  const sums = Array.from({ length: folds }, () => ({
    matrix: new Float64Array(bandLength(design.basis)),
    sides: targets.map(() => new Float64Array(design.basis.size)),
  }));
  for (let at = 0; at < weights.length; at++) {
    const weight = weights[at]!;
    if (weight === 0) continue;
    const { matrix, sides } = sums[fold[at]!]!;
    addSquare(design, weight, at, matrix);
    for (let t = 0; t < sides.length; t++) addDesignRow(design, weight * targets[t]![at]!, at, sides[t]!);
  }
  return sums;
}

/** Adds weight × aᵀ·a for the row a of one cell to a band. */
function addSquare(
  { basis, first, values }: CellDesign,
  weight: number,
  at: number,
  matrix: Float64Array,
): void {
  const { runs, runLength, runStride, halfBandwidth } = basis;
  const from = at * runs * runLength;
  for (let runA = 0; runA < runs; runA++) {
    for (let a = 0; a < runLength; a++) {
      const weighted = weight * values[from + runA * runLength + a]!;
      const row = (first[at]! + runA * runStride + a + 1) * halfBandwidth + first[at]!;
      for (let runB = 0; runB <= runA; runB++) {
        const last = runB === runA ? a + 1 : runLength;
        const to = row + runB * runStride;
        const valueB = from + runB * runLength;
        for (let b = 0; b < last; b++) matrix[to + b]! += weighted * values[valueB + b]!;
      }
    }
  }
}

export function sumNormalEquations(parts: readonly NormalEquations[]): NormalEquations {
  const total = { matrix: parts[0]!.matrix.slice(), sides: parts[0]!.sides.map((side) => side.slice()) };
  for (const { matrix, sides } of parts.slice(1)) {
    addTo(total.matrix, matrix, 1);
    for (let t = 0; t < sides.length; t++) addTo(total.sides[t]!, sides[t]!, 1);
  }
  return total;
}

/** Modifies `sum` in place: adds `factor` times `part`. */
export function addTo(sum: Float64Array, part: Float64Array, factor: number): void {
  for (let i = 0; i < sum.length; i++) sum[i]! += factor * part[i]!;
}
