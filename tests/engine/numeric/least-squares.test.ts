import { expect, test } from 'vitest';
import { leastSquares } from '../../../src/engine/numeric/least-squares.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

test('leastSquares finds the bottom of a curved valley (Rosenbrock 1960)', () => {
  const fit = leastSquares(
    ([x, y], into) => {
      into[0] = 10 * (y! - x! * x!);
      into[1] = 1 - x!;
    },
    Float64Array.of(-1.2, 1),
    2,
    200,
  );
  expectWithin(fit.point[0]!, 1, 1e-2);
  expectWithin(fit.point[1]!, 1, 2e-2);
  expect(fit.cost).toBeLessThan(1e-4);
});

test('leastSquares of a straight line gives the normal equations’ answer and information', () => {
  const random = seededRandom(3);
  const data = Array.from(
    { length: 50 },
    (_, i) => [i / 50, 2 - 3 * (i / 50) + 0.1 * random.normal()] as const,
  );
  const fit = leastSquares(
    ([a, b], into) => {
      data.forEach(([x, y], i) => {
        into[i] = (a! + b! * x - y) / 0.1;
      });
    },
    new Float64Array(2),
    50,
    20,
  );
  const sum = (of: (x: number, y: number) => number) => data.reduce((total, [x, y]) => total + of(x, y), 0);
  const [n, sx, sxx, sy, sxy] = [
    50,
    sum((x) => x),
    sum((x) => x * x),
    sum((_, y) => y),
    sum((x, y) => x * y),
  ];
  const slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
  expectWithin(fit.point[1]!, slope, 1e-3);
  expectWithin(fit.point[0]!, (sy - slope * sx) / n, 1e-3);
  expectWithin(fit.information[0]!, n / 0.01, 1e-3);
  expectWithin(fit.information[3]!, sxx / 0.01, 1e-3);
});

test('leastSquares never takes a point that is no number, and stops where nothing can be gained', () => {
  const fit = leastSquares(
    ([x], into) => {
      into[0] = Math.log(x!);
    },
    Float64Array.of(0.05),
    1,
    50,
  );
  expectWithin(fit.point[0]!, 1, 0.02);
  const flat = leastSquares((_point, into) => into.fill(1), Float64Array.of(0), 3, 50);
  expect(flat.iterations).toBe(1);
  expect([...flat.point]).toEqual([0]);
});
