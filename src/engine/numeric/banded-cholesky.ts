/**
 * A symmetric banded matrix by its lower triangle: row i holds columns i − halfBandwidth to i, so that element
 * (i, j) stands at (i + 1) × halfBandwidth + j. Entries left of column 0 are there, and unused.
 */
export interface BandShape {
  readonly size: number;
  readonly halfBandwidth: number;
}

export function bandLength({ size, halfBandwidth }: BandShape): number {
  return size * (halfBandwidth + 1);
}

/**
 * Factors a symmetric positive definite band as L·Lᵀ; modifies `band` in place to hold L.
 *
 * @throws RangeError where the matrix is not positive definite, naming the pivot; NaN counts as that.
 */
export function factorBandedCholesky(band: Float64Array, { size, halfBandwidth }: BandShape): void {
  for (let i = 0; i < size; i++) {
    const rowI = (i + 1) * halfBandwidth;
    const first = Math.max(0, i - halfBandwidth);
    for (let j = first; j < i; j++) {
      const rowJ = (j + 1) * halfBandwidth;
      // four sums that don't wait for each other: half the time of one
      let a = 0;
      let b = 0;
      let c = 0;
      let d = 0;
      let k = first;
      for (; k + 3 < j; k += 4) {
        a += band[rowI + k]! * band[rowJ + k]!;
        b += band[rowI + k + 1]! * band[rowJ + k + 1]!;
        c += band[rowI + k + 2]! * band[rowJ + k + 2]!;
        d += band[rowI + k + 3]! * band[rowJ + k + 3]!;
      }
      for (; k < j; k++) a += band[rowI + k]! * band[rowJ + k]!;
      band[rowI + j] = (band[rowI + j]! - (a + b + (c + d))) / band[rowJ + j]!;
    }
    let pivot = band[rowI + i]!;
    for (let k = first; k < i; k++) pivot -= band[rowI + k]! * band[rowI + k]!;
    if (!(pivot > 0)) {
      throw new RangeError(`the matrix is not positive definite: pivot ${i} of ${size} is ${pivot}`);
    }
    band[rowI + i] = Math.sqrt(pivot);
  }
}

/** Solves L·Lᵀ·x = `vector` with a factor of {@link factorBandedCholesky}; modifies `vector` in place to hold x. */
export function solveBandedCholesky(
  factor: Float64Array,
  { size, halfBandwidth }: BandShape,
  vector: Float64Array,
): void {
  for (let i = 0; i < size; i++) {
    const row = (i + 1) * halfBandwidth;
    let sum = vector[i]!;
    for (let k = Math.max(0, i - halfBandwidth); k < i; k++) sum -= factor[row + k]! * vector[k]!;
    vector[i] = sum / factor[row + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = (i + 1) * halfBandwidth;
    const x = vector[i]! / factor[row + i]!;
    vector[i] = x;
    for (let k = Math.max(0, i - halfBandwidth); k < i; k++) vector[k]! -= factor[row + k]! * x;
  }
}
