import { expect, test } from 'vitest';
import { chebyshevDerivative, chebyshevSeries } from '../../../src/engine/numeric/chebyshev-series.ts';
import { expectWithin } from '../../expect-within.ts';

test('chebyshevSeries(one coefficient, t) is cos(k arccos t)', () => {
  for (let k = 0; k < 8; k++)
    for (let t = -1; t <= 1; t += 0.125) {
      const coefficients = Array.from({ length: k + 1 }, (_, i) => (i === k ? 1 : 0));
      expectWithin(chebyshevSeries(coefficients, t), Math.cos(k * Math.acos(t)), 1e-13);
    }
});

test('chebyshevDerivative of T3 = 4 t³ − 3 t is 12 t² − 3', () => {
  const derivative = chebyshevDerivative([0, 0, 0, 1]);
  for (const t of [-1, -0.3, 0, 0.7, 1]) expectWithin(chebyshevSeries(derivative, t), 12 * t * t - 3, 1e-13);
});

test('chebyshevDerivative of a constant is 0', () => {
  expect(chebyshevDerivative([5])).toEqual([0]);
});
