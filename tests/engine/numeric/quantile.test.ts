import { expect, test } from 'vitest';
import { quantile, quantileOfSorted } from '../../../src/engine/numeric/quantile.ts';
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
