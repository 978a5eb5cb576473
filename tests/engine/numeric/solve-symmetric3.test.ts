import { expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { solveSymmetric3 } from '../../../src/engine/numeric/solve-symmetric3.ts';
import { expectWithin } from '../../expect-within.ts';

test('solveSymmetric3(A, A·x) is x for positive definite A', () => {
  const random = seededRandom(3);
  for (let i = 0; i < 200; i++) {
    const b = Array.from({ length: 9 }, () => random.normal());
    // Bᵀ·B plus a little on the diagonal is positive definite
    const a = (row: number, column: number) =>
      b[row]! * b[column]! +
      b[row + 3]! * b[column + 3]! +
      b[row + 6]! * b[column + 6]! +
      (row === column ? 0.1 : 0);
    const x = [random.normal(), random.normal(), random.normal()] as const;
    const side = ([0, 1, 2] as const).map((row) => a(row, 0) * x[0] + a(row, 1) * x[1] + a(row, 2) * x[2]);
    const solved = solveSymmetric3(
      [a(0, 0), a(1, 0), a(1, 1), a(2, 0), a(2, 1), a(2, 2)],
      [side[0]!, side[1]!, side[2]!],
    );
    solved!.forEach((value, k) => {
      expectWithin(value, x[k]!, 1e-10);
    });
  }
});

test('solveSymmetric3 is null for singular, indefinite and NaN systems', () => {
  const side = [1, 1, 1] as const;
  expect(solveSymmetric3([0, 0, 1, 0, 0, 1], side)).toBeNull();
  expect(solveSymmetric3([1, 1, 1, 0, 0, 1], side)).toBeNull();
  expect(solveSymmetric3([4, 2, 5, 6, 7, 13], side)).toBeNull(); // the third row is the sum of the others
  expect(solveSymmetric3([1, 2, 1, 0, 0, 1], side)).toBeNull();
  expect(solveSymmetric3([Number.NaN, 0, 1, 0, 0, 1], side)).toBeNull();
  expect(solveSymmetric3([1, Number.NaN, 1, 0, 0, 1], side)).toBeNull();
});
