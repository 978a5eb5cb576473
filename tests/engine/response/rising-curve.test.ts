import { expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { risingCurve } from '../../../src/engine/response/rising-curve.ts';
import { expectWithin } from '../../expect-within.ts';

test('risingCurve(values) leaves what rises as it is and pools what falls', () => {
  expect(risingCurve([1, 2, 2, 5])).toEqual([1, 2, 2, 5]);
  expect(risingCurve([1, 4, 2, 3, 6])).toEqual([1, 3, 3, 3, 6]);
  expect(risingCurve([3, 2, 1])).toEqual([2, 2, 2]);
  expect(risingCurve([])).toEqual([]);
});

test('risingCurve(values) is the nearest that never falls: no other tried comes nearer', () => {
  const random = seededRandom(3);
  for (let trial = 0; trial < 50; trial++) {
    const values = Array.from({ length: 30 }, (_, i) => 0.1 * i + random.normal());
    const rising = risingCurve(values);
    const off = (curve: readonly number[]) =>
      curve.reduce((sum, value, i) => sum + (value - values[i]!) ** 2, 0);
    for (let i = 1; i < rising.length; i++) expect(rising[i]!).toBeGreaterThanOrEqual(rising[i - 1]!);
    expectWithin(
      rising.reduce((sum, value) => sum + value, 0),
      values.reduce((sum, value) => sum + value, 0),
      1e-9,
    );
    const other = rising.map((value) => value + 0.05 * random.normal()).toSorted((a, b) => a - b);
    expect(off(rising)).toBeLessThan(off(other));
  }
});
