import { factorBandedCholesky, solveBandedCholesky } from './banded-cholesky.ts';

/**
 * Solves A·x = b for a symmetric positive definite A, row-major; only its lower triangle is read, and neither
 * argument is changed.
 *
 * @throws RangeError where A is not square with b's length, or not positive definite.
 */
export function choleskySolve(a: Float64Array, b: Float64Array): Float64Array {
  return choleskySolver(a, b.length)(b);
}

/** The same for one A and one b after another: A is factored once. */
export function choleskySolver(a: Float64Array, size: number): (b: Float64Array) => Float64Array {
  if (a.length !== size * size) {
    throw new RangeError(
      `expected ${size} × ${size} elements for a right-hand side of ${size}, found ${a.length}`,
    );
  }
  const halfBandwidth = Math.max(0, size - 1);
  const shape = { size, halfBandwidth };
  const factor = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) factor[(i + 1) * halfBandwidth + j] = a[i * size + j]!;
  }
  factorBandedCholesky(factor, shape);
  return (b) => {
    const x = b.slice();
    solveBandedCholesky(factor, shape, x);
    return x;
  };
}
