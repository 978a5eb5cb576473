import { expect, test } from 'vitest';
import { keptValues } from '../../../src/engine/lamps/kept-values.ts';

test('kept values are worked out anew where a figure changes, and a step to the side leaves them', () => {
  const kept = keptValues(1);
  let times = 0;
  const twice = (value: number) => (into: Float64Array) => {
    times++;
    into[0] = 2 * value;
  };
  const of = (value: number) => kept.of([value, 0], twice(value))[0];
  const near = (value: number) => kept.near([value, 0], twice(value))[0];
  expect([of(3), of(3), near(3), times]).toEqual([6, 6, 6, 1]);
  expect([near(4), near(4), times]).toEqual([8, 8, 2]);
  expect([near(3), of(3), times]).toEqual([6, 6, 2]);
  expect([of(5), near(4), near(3), times]).toEqual([10, 8, 6, 4]);
  // figures that came or went count as changed
  expect([kept.of([5], twice(1))[0], times]).toEqual([2, 5]);
});
