import { expect, test } from 'vitest';
import { correlation, estimateOf } from '../../../src/engine/lamps/estimate.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

test('estimateOf(values) is the first of them, with 1.96 standard deviations of all about it', () => {
  const { value, plusMinus } = estimateOf([2, 1, 3, 6]);
  expect(value).toBe(2);
  // squares 0 + 1 + 1 + 16 over three
  expectWithin(plusMinus, 1.96 * Math.sqrt(18 / 3), 1e-12);
  expect(estimateOf([5, 5, 5])).toEqual({ value: 5, plusMinus: 0 });
});

test('the ± of an estimate covers 95 of 100 draws of a normal figure', () => {
  const random = seededRandom(6);
  const draws = Array.from({ length: 4000 }, () => 3 + 0.5 * random.normal());
  const { plusMinus } = estimateOf([3, ...draws]);
  const within = draws.filter((each) => Math.abs(each - 3) < plusMinus).length;
  expectWithin(within / draws.length, 0.95, 0.012); // 3.5 standard deviations of the count
});

test('correlation(a, b) of figures mixed at random is what they were mixed by', () => {
  const random = seededRandom(4);
  for (const share of [-1, -0.8, -0.3, 0, 0.5, 0.95, 1]) {
    const a = Array.from({ length: 5000 }, () => random.normal());
    const b = a.map((value) => 7 + 0.01 * (share * value + Math.sqrt(1 - share * share) * random.normal()));
    const found = correlation(a, b);
    expectWithin(found, share, 0.05);
    expectWithin(correlation(b, a), found, 1e-12);
    expectWithin(
      correlation(
        a.map((value) => 3 - 20 * value),
        b,
      ),
      -found,
      1e-12,
    );
  }
});

test('correlation is 0 with a figure that does not vary', () => {
  expect(correlation([1, 2, 3], [4, 4, 4])).toBe(0);
  expect(correlation([0, 0, 0], [1, 2, 4])).toBe(0);
});
