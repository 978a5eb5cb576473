import { factorBandedCholesky } from './banded-cholesky.ts';

/**
 * The lower triangle L of a symmetric positive definite A = L·Lᵀ, both row-major; above the diagonal it is 0. Only
 * A's lower triangle is read.
 *
 * @throws RangeError where A is not positive definite.
 */
export function choleskyFactor(a: Float64Array, size: number): Float64Array {
  const halfBandwidth = Math.max(0, size - 1);
  const banded = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) banded[(i + 1) * halfBandwidth + j] = a[i * size + j]!;
  factorBandedCholesky(banded, { size, halfBandwidth });
  const factor = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) factor[i * size + j] = banded[(i + 1) * halfBandwidth + j]!;
  return factor;
}
