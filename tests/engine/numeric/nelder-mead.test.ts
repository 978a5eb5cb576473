import { expect, test } from 'vitest';
import { nelderMead } from '../../../src/engine/numeric/nelder-mead.ts';
import { expectWithin } from '../../expect-within.ts';

test('nelderMead finds the end of a bent valley (Rosenbrock 1960)', () => {
  const valley = ([x, y]: Float64Array) => (1 - x!) ** 2 + 100 * (y! - x! * x!) ** 2;
  const { at, evaluations } = nelderMead(valley, Float64Array.of(-1.2, 1), 0.5, 1e-8, 1000);
  expectWithin(at[0]!, 1, 1e-6);
  expectWithin(at[1]!, 1, 1e-6);
  console.log(`measured: the bent valley takes ${evaluations} evaluations`);
});

test('nelderMead stays out of forbidden places and stops at the best allowed one', () => {
  const halfPlane = ([x, y]: Float64Array) => (x! < 1 ? Number.NaN : x! * x! + y! * y!);
  const { at } = nelderMead(halfPlane, Float64Array.of(3, 2), 0.3, 1e-9, 2000);
  expectWithin(at[0]!, 1, 1e-3);
  expectWithin(at[1]!, 0, 1e-3);
});

test('nelderMead keeps to the number of evaluations it is allowed, give or take one round', () => {
  const { evaluations } = nelderMead(([x]) => Math.sin(x!), Float64Array.of(1), 1, 0, 30);
  expect(evaluations).toBeLessThanOrEqual(34);
});

test('nelderMead refuses to start at a forbidden place, and leaves the start as it was', () => {
  expect(() => nelderMead(() => Number.NaN, Float64Array.of(0), 1, 1e-3, 10)).toThrow(RangeError);
  const start = Float64Array.of(5);
  nelderMead(([x]) => x! * x!, start, 1, 1e-6, 100);
  expect([...start]).toEqual([5]);
});
