import { expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { surelyOverShare, tFactor95 } from '../../../src/engine/numeric/small-sample.ts';
import { expectWithin } from '../../expect-within.ts';

/** Area of Student's density from 0, by Simpson's rule over x = tan: its own integral, not the expansion's. */
function tailsInside(t: number, freedom: number): number {
  const steps = 20_000;
  const width = Math.atan(t) / steps;
  const density = (angle: number) =>
    (1 + Math.tan(angle) ** 2 / freedom) ** (-(freedom + 1) / 2) / Math.cos(angle) ** 2;
  const area = (to: number, n: number) => {
    const h = to / n;
    let sum = 0;
    for (let i = 0; i < n; i++)
      sum += (h / 6) * (density(i * h) + 4 * density((i + 0.5) * h) + density((i + 1) * h));
    return sum;
  };
  return area(width * steps, steps) / area(Math.PI / 2 - 1e-6, 400_000);
}

test.each([1, 2, 3, 4, 5, 9, 30])('tFactor95(%i) holds 95 of 100 of Student’s distribution', (freedom) => {
  // 0.3 % of t, as its expansion is said to hold, is 0.0003 of the area where the tails are longest
  expectWithin(tailsInside(tFactor95(freedom), freedom), 0.95, 3e-4);
});

test.each([1, 2, 4, 20])('surelyOverShare(%i) is exceeded by chance once in twenty', (freedom) => {
  const random = seededRandom(freedom);
  const limit = surelyOverShare(freedom);
  const rounds = 40_000;
  let over = 0;
  for (let round = 0; round < rounds; round++) {
    let sum = 0;
    for (let i = 0; i < freedom; i++) sum += random.normal() ** 2;
    if (sum / freedom > limit) over++;
  }
  console.log(
    `measured: ${((100 * over) / rounds).toFixed(2)} % over ${limit.toFixed(3)} for ${freedom} degrees of freedom`,
  );
  expect(over / rounds).toBeGreaterThan(0.045);
  expect(over / rounds).toBeLessThan(0.056);
});
