import { expect, test } from 'vitest';
import { quantile, quantileOfSorted } from '../../../src/engine/numeric/quantile.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

test('quantile(values, p) interpolates between order statistics by definition 7', () => {
  const values = [7, 1, 3, 10];
  expect(quantile(values, 0)).toBe(1);
  expect(quantile(values, 1)).toBe(10);
  expect(quantile(values, 0.5)).toBe(5);
  expectWithin(quantile(values, 0.25), 1 + 0.75 * 2, 1e-15); // position (4 − 1) × 0.25
});

test('quantile(values, p) leaves NaN out, and leaves its argument as it was', () => {
  const values = Float64Array.of(3, Number.NaN, 1);
  expect(quantile(values, 0.5)).toBe(2);
  expect([...values]).toEqual([3, Number.NaN, 1]);
});

test('quantileOfSorted is NaN for nothing and refuses a p outside 0 to 1', () => {
  expect(quantileOfSorted([], 0.5)).toBeNaN();
  expect(quantileOfSorted([4], 0.9)).toBe(4);
  expect(() => quantileOfSorted([1, 2], 1.01)).toThrow(RangeError);
  expect(() => quantileOfSorted([1, 2], Number.NaN)).toThrow(RangeError);
});

test('quantile(values, p) of many values is that of the sorted ones, whatever their order', () => {
  const random = seededRandom(6);
  const orders: readonly ((i: number, n: number) => number)[] = [
    () => random.normal(),
    (i) => i,
    (i, n) => n - i,
    () => Math.floor(3 * random.uniform()), // mostly alike
    () => 7,
    (i) => (i % 5 ? i : Number.POSITIVE_INFINITY),
    (i, n) => Math.abs(i - n / 2),
  ];
  for (const order of orders)
    for (const n of [1, 2, 31, 33, 34, 100, 1001]) {
      const values = Float64Array.from({ length: n }, (_, i) => order(i, n));
      const sorted = values.toSorted();
      for (const p of [0, 0.003, 0.2, 0.5, 0.77, 0.995, 1])
        expect(quantile(values, p), `${p} of ${n}`).toBe(quantileOfSorted(sorted, p));
    }
});

test('quantile refuses a p outside 0 to 1, of few values and of many', () => {
  for (const n of [3, 300]) expect(() => quantile(new Float64Array(n), 1.2)).toThrow(RangeError);
});
