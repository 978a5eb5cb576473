import { expect, test } from 'vitest';
import {
  evaluateLegendreSurface,
  fitLegendreSurface,
  legendreTerms,
} from '../../../src/engine/diagnosis/legendre-surface.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

const random = seededRandom(7);
const coefficients = Float64Array.from(legendreTerms(6), () => random.normal());

test('fitLegendreSurface(samples, degree) gives the coefficients of a surface back', () => {
  const values = evaluateLegendreSurface({ degree: 6, coefficients }, 31, 20);
  values[17] = Number.NaN;
  const fitted = fitLegendreSurface({ columns: 31, rows: 20, values }, 6)!;
  coefficients.forEach((expected, k) => {
    expectWithin(fitted.coefficients[k]!, expected, 1e-7);
  });
});

test('fitLegendreSurface(samples, degree) leaves out what has no weight', () => {
  const values = evaluateLegendreSurface({ degree: 6, coefficients }, 31, 20);
  const weights = new Float64Array(values.length).fill(1);
  for (let cell = 0; cell < values.length; cell += 5) {
    values[cell] = 100;
    weights[cell] = 0;
  }
  const fitted = fitLegendreSurface({ columns: 31, rows: 20, values, weights }, 6)!;
  expectWithin(fitted.coefficients[3]!, coefficients[3]!, 1e-7);
});

test('fitLegendreSurface(samples, degree) takes a simpler surface where cells are few, none where there are none', () => {
  const values = new Float64Array(100).fill(Number.NaN);
  expect(fitLegendreSurface({ columns: 10, rows: 10, values }, 4)).toBeNull();
  for (const cell of [3, 14, 27, 55, 71, 82, 90]) values[cell] = 2;
  const fitted = fitLegendreSurface({ columns: 10, rows: 10, values }, 4)!;
  expect(fitted.degree).toBe(1);
  expectWithin(fitted.coefficients[0]!, 2, 1e-6);
});

test('evaluateLegendreSurface(surface, columns, rows) is the same surface on a finer grid', () => {
  // P2 across alone: 1.5 t² − 0.5 at the centres t = −2/3, 0, 2/3
  const across = evaluateLegendreSurface(
    { degree: 2, coefficients: Float64Array.of(0, 0, 0, 1, 0, 0) },
    3,
    1,
  );
  [1 / 6, -0.5, 1 / 6].forEach((expected, k) => {
    expectWithin(across[k]!, expected, 1e-12);
  });
});
