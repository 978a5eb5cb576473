import { expect, test } from 'vitest';
import { choleskySolve } from '../../../src/engine/numeric/cholesky-solve.ts';
import { cubicBSplineAt } from '../../../src/engine/numeric/cubic-b-spline.ts';
import { expectWithin } from '../../expect-within.ts';
import { gramMatrix } from './random-matrix.ts';

const SPANS = 7;

function sumAt(t: number, coefficients: ArrayLike<number>): number {
  const values = new Float64Array(4);
  const first = cubicBSplineAt(t, SPANS, values);
  return values.reduce((sum, value, k) => sum + value * coefficients[first + k]!, 0);
}

test('cubicBSplineAt(t) gives four values that are never negative and add up to 1', () => {
  const values = new Float64Array(4);
  for (let step = 0; step <= 1000; step++) {
    const first = cubicBSplineAt(step / 1000, SPANS, values);
    expect(first >= 0 && first + 3 < SPANS + 3).toBe(true);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    expectWithin(values[0]! + values[1]! + values[2]! + values[3]!, 1, 1e-15);
  }
});

test('cubicBSplineAt(t) has value, slope and curvature in common at both sides of a knot', () => {
  const coefficients = [3, -1, 4, 1, -5, 9, -2, 6, -5, 3];
  const step = 1e-4;
  const squareSpans = (step * SPANS) ** 2;
  for (let knot = 1; knot < SPANS; knot++) {
    const at = (shift: number) => sumAt(knot / SPANS + shift * step, coefficients);
    expectWithin(at(1e-9), at(-1e-9), 1e-9);
    const left = (at(0) - 2 * at(-1) + at(-2)) / squareSpans;
    const right = (at(2) - 2 * at(1) + at(0)) / squareSpans;
    // curvatures here run to tens a span²; a step of 0.0007 spans to either side leaves a tenth at most
    expectWithin(right - left, 0, 0.2);
  }
});

test('splines of cubicBSplineAt follow any cubic exactly', () => {
  const points = 60;
  const design = new Float64Array(points * (SPANS + 3));
  const values = new Float64Array(4);
  const cubic = (t: number) => 2 - 3 * t + 5 * t * t - 4 * t * t * t;
  const observed = Float64Array.from({ length: points }, (_, row) => {
    const first = cubicBSplineAt(row / (points - 1), SPANS, values);
    design.set(values, row * (SPANS + 3) + first);
    return cubic(row / (points - 1));
  });
  const count = SPANS + 3;
  const right = Float64Array.from({ length: count }, (_, column) =>
    observed.reduce((sum, value, row) => sum + value * design[row * count + column]!, 0),
  );
  const parameters = choleskySolve(gramMatrix(design, count), right);
  for (let step = 0; step <= 200; step++)
    expectWithin(sumAt(step / 200, parameters), cubic(step / 200), 1e-12);
});

test('cubicBSplineAt(t) takes a t beyond an end as that end', () => {
  const [inside, outside] = [new Float64Array(4), new Float64Array(4)];
  expect(cubicBSplineAt(1.5, SPANS, outside)).toBe(cubicBSplineAt(1, SPANS, inside));
  expect(outside).toEqual(inside);
  expect(cubicBSplineAt(-2, SPANS, outside)).toBe(cubicBSplineAt(0, SPANS, inside));
  expect(outside).toEqual(inside);
});
