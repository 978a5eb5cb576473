import { type BandShape, bandLength } from './banded-cholesky.ts';

/**
 * Those elements of (L·Lᵀ)⁻¹ that lie within the band of L, in the same storage; the rest is never formed.
 * Source: K. Takahashi, J. Fagan, M.-S. Chin, "Formation of a sparse bus impedance matrix and its application to
 * short circuit study", Proc. 8th PICA Conf., 1973 (cited from memory).
 */
export function bandedInverse(factor: Float64Array, shape: BandShape): Float64Array {
  const { size, halfBandwidth } = shape;
  const inverse = new Float64Array(bandLength(shape));
  for (let i = size - 1; i >= 0; i--) {
    const diagonal = factor[(i + 1) * halfBandwidth + i]!;
    const last = Math.min(size - 1, i + halfBandwidth);
    for (let j = last; j >= i; j--) {
      let sum = j === i ? 1 / diagonal : 0;
      for (let k = i + 1; k <= last; k++) {
        const low = Math.max(k, j);
        const high = k + j - low;
        sum -= factor[(k + 1) * halfBandwidth + i]! * inverse[(low + 1) * halfBandwidth + high]!;
      }
      inverse[(j + 1) * halfBandwidth + i] = sum / diagonal;
    }
  }
  return inverse;
}

/** Trace of the product of two symmetric matrices, of which one is zero outside the band. */
export function bandedProductTrace(
  a: Float64Array,
  b: Float64Array,
  { size, halfBandwidth }: BandShape,
): number {
  let trace = 0;
  for (let i = 0; i < size; i++) {
    const row = (i + 1) * halfBandwidth;
    for (let j = Math.max(0, i - halfBandwidth); j < i; j++) trace += 2 * a[row + j]! * b[row + j]!;
    trace += a[row + i]! * b[row + i]!;
  }
  return trace;
}
