import { expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

const DRAWS = 100_000;

test('seededRandom(seed) repeats itself, and differs between neighbouring seeds', () => {
  const draw = (seed: number) => {
    const random = seededRandom(seed);
    return Array.from({ length: 20 }, () => random.uniform());
  };
  expect(draw(5)).toEqual(draw(5));
  const other = draw(6);
  expect(draw(5).some((value, at) => value === other[at])).toBe(false);
});

test('seededRandom(seed).uniform() fills 0 to 1 evenly, for any seed', () => {
  for (const seed of [0, 1, -1, 2 ** 31]) {
    const random = seededRandom(seed);
    const tenths = new Float64Array(10);
    for (let i = 0; i < DRAWS; i++) {
      const value = random.uniform();
      expect(value >= 0 && value < 1).toBe(true);
      tenths[Math.floor(value * 10)]!++;
    }
    const chiSquare = tenths.reduce((sum, count) => sum + (count - DRAWS / 10) ** 2 / (DRAWS / 10), 0);
    expect(chiSquare).toBeLessThan(27.9); // 0.1 % point of chi-square with 9 degrees of freedom
  }
});

test('seededRandom(seed).normal() has the moments of a standard normal, and no memory', () => {
  const random = seededRandom(11);
  const values = Float64Array.from({ length: DRAWS }, () => random.normal());
  const mean = (of: (value: number, at: number) => number) =>
    values.reduce((sum, value, at) => sum + of(value, at), 0) / DRAWS;
  const fourErrors = 4 / Math.sqrt(DRAWS);
  expectWithin(
    mean((v) => v),
    0,
    fourErrors,
  );
  expectWithin(
    mean((v) => v ** 2),
    1,
    Math.SQRT2 * fourErrors,
  );
  expectWithin(
    mean((v) => v ** 3),
    0,
    Math.sqrt(15) * fourErrors,
  );
  expectWithin(
    mean((v) => v ** 4),
    3,
    Math.sqrt(96) * fourErrors,
  );
  expectWithin(
    mean((v, at) => v * values[(at + 1) % DRAWS]!),
    0,
    fourErrors,
  );
});
