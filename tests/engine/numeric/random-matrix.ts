import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** Row-major, standard normal elements. */
export function randomMatrix(rows: number, columns: number, seed: number): Float64Array {
  const random = seededRandom(seed);
  return Float64Array.from({ length: rows * columns }, () => random.normal());
}

/** Aᵀ·A for a row-major A of so many columns: symmetric, and positive definite where A has full rank. */
export function gramMatrix(a: Float64Array, columns: number): Float64Array {
  const gram = new Float64Array(columns * columns);
  for (let row = 0; row < a.length; row += columns) {
    for (let i = 0; i < columns; i++) {
      for (let j = 0; j < columns; j++) gram[i * columns + j]! += a[row + i]! * a[row + j]!;
    }
  }
  return gram;
}

export function matrixTimes(a: Float64Array, x: ArrayLike<number>): Float64Array {
  const rows = a.length / x.length;
  return Float64Array.from({ length: rows }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < x.length; j++) sum += a[i * x.length + j]! * x[j]!;
    return sum;
  });
}
