import { expect, test } from 'vitest';
import { choleskySolve, choleskySolver } from '../../../src/engine/numeric/cholesky-solve.ts';
import { expectWithin } from '../../expect-within.ts';
import { gramMatrix, matrixTimes, randomMatrix } from './random-matrix.ts';

test('choleskySolve(A, A·x) gives x back, and changes neither argument', () => {
  for (const size of [1, 2, 3, 8, 25]) {
    const a = gramMatrix(randomMatrix(3 * size, size, size), size);
    const x = randomMatrix(size, 1, 100 + size);
    const b = matrixTimes(a, x);
    const [keptA, keptB] = [a.slice(), b.slice()];
    const solution = choleskySolve(a, b);
    x.forEach((value, at) => {
      expectWithin(solution[at]!, value, 1e-11);
    });
    expect(a).toEqual(keptA);
    expect(b).toEqual(keptB);
  }
});

test('choleskySolver(A) solves for one side after another', () => {
  const a = gramMatrix(randomMatrix(12, 4, 7), 4);
  const solve = choleskySolver(a, 4);
  for (const seed of [8, 9, 8]) {
    const b = randomMatrix(4, 1, seed);
    expect(solve(b)).toEqual(choleskySolve(a, b));
  }
});

test('choleskySolve reads the lower triangle alone', () => {
  const solution = choleskySolve(Float64Array.of(4, Number.NaN, 2, 3), Float64Array.of(8, 8));
  expectWithin(solution[0]!, 1, 1e-15);
  expectWithin(solution[1]!, 2, 1e-15);
});

test('choleskySolve says which pivot keeps a matrix from being positive definite', () => {
  expect(() => choleskySolve(Float64Array.of(1, 2, 2, 1), Float64Array.of(1, 1))).toThrow(
    'the matrix is not positive definite: pivot 1 of 2 is -3',
  );
  expect(() => choleskySolve(Float64Array.of(1, 1, 1, 1), Float64Array.of(1, 1))).toThrow(
    /pivot 1 of 2 is 0/,
  );
  expect(() => choleskySolve(Float64Array.of(Number.NaN), Float64Array.of(1))).toThrow(/pivot 0 of 1 is NaN/);
  expect(() => choleskySolve(Float64Array.of(1, 2), Float64Array.of(1))).toThrow(/expected 1 × 1/);
});
