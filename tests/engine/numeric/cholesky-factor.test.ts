import { expect, test } from 'vitest';
import { choleskyFactor } from '../../../src/engine/numeric/cholesky-factor.ts';
import { expectWithin } from '../../expect-within.ts';
import { gramMatrix, randomMatrix } from './random-matrix.ts';

test('choleskyFactor(A) is a lower triangle L with a positive diagonal, L·Lᵀ = A; A stays as it was', () => {
  for (const size of [1, 2, 3, 7, 24])
    for (let seed = 1; seed <= 5; seed++) {
      const a = gramMatrix(randomMatrix(size + 3, size, 31 * size + seed), size);
      const before = a.slice();
      const factor = choleskyFactor(a, size);
      expect(a).toEqual(before);
      for (let i = 0; i < size; i++) {
        expect(factor[i * size + i]).toBeGreaterThan(0);
        for (let j = 0; j < size; j++) {
          if (j > i) expect(factor[i * size + j]).toBe(0);
          let sum = 0;
          for (let k = 0; k < size; k++) sum += factor[i * size + k]! * factor[j * size + k]!;
          expectWithin(sum, a[i * size + j]!, 1e-10);
        }
      }
    }
});

test('choleskyFactor reads the lower triangle alone', () => {
  const factor = choleskyFactor(Float64Array.of(4, Number.NaN, 2, 5), 2);
  expect([...factor]).toEqual([2, 0, 1, 2]);
});

test.each([
  ['indefinite', [1, 2, 2, 1]],
  ['singular', [1, 1, 1, 1]],
  ['with a negative diagonal', [-1, 0, 0, 1]],
  ['no number', [1, Number.NaN, Number.NaN, 1]],
] as const)('choleskyFactor throws where the matrix is %s', (_, elements) => {
  expect(() => choleskyFactor(Float64Array.from(elements), 2)).toThrow(RangeError);
});
