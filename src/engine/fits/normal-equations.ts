import { bandLength } from '../numeric/banded-cholesky.ts';
import type { CellDesign } from './cell-design.ts';

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
  const { basis, terms, values } = design;
  const { size, halfBandwidth, perPoint } = basis;
  const sums = Array.from({ length: folds }, () => ({
    matrix: new Float64Array(bandLength(basis)),
    sides: targets.map(() => new Float64Array(size)),
  }));
  for (let at = 0; at < weights.length; at++) {
    const weight = weights[at]!;
    if (weight === 0) continue;
    const { matrix, sides } = sums[fold[at]!]!;
    const first = at * perPoint;
    const end = first + perPoint;
    for (let a = first; a < end; a++) {
      const row = (terms[a]! + 1) * halfBandwidth;
      const weighted = weight * values[a]!;
      for (let b = first; b <= a; b++) matrix[row + terms[b]!]! += weighted * values[b]!;
      for (let t = 0; t < sides.length; t++) sides[t]![terms[a]!]! += weighted * targets[t]![at]!;
    }
  }
  return sums;
}

export function sumNormalEquations(parts: readonly NormalEquations[]): NormalEquations {
  const total = { matrix: parts[0]!.matrix.slice(), sides: parts[0]!.sides.map((side) => side.slice()) };
  for (const { matrix, sides } of parts.slice(1)) {
    addTo(total.matrix, matrix, 1);
    for (let t = 0; t < sides.length; t++) addTo(total.sides[t]!, sides[t]!, 1);
  }
  return total;
}

export function withoutPart(total: NormalEquations, part: NormalEquations): NormalEquations {
  const rest = { matrix: total.matrix.slice(), sides: total.sides.map((side) => side.slice()) };
  addTo(rest.matrix, part.matrix, -1);
  for (let t = 0; t < rest.sides.length; t++) addTo(rest.sides[t]!, part.sides[t]!, -1);
  return rest;
}

/** Modifies `sum` in place: adds `factor` times `part`. */
export function addTo(sum: Float64Array, part: Float64Array, factor: number): void {
  for (let i = 0; i < sum.length; i++) sum[i]! += factor * part[i]!;
}
