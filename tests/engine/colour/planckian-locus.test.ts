import { expect, test } from 'vitest';
import { planckianDerivative, planckianUv1960 } from '../../../src/engine/colour/planckian-locus.ts';
import { expectWithin } from '../../expect-within.ts';
import { numberIn, readTable } from '../../published/read-table.ts';
import { blackBodyUv1960 } from './black-body.ts';

test('planckianUv1960(mired) is Planck’s law over the observer from 1 to 700 mired', () => {
  let largest = 0;
  for (let mired = 1; mired <= 700; mired += 0.5) {
    const { u, v } = planckianUv1960(mired);
    const expected = blackBodyUv1960(mired);
    largest = Math.max(largest, Math.abs(u - expected.u), Math.abs(v - expected.v));
  }
  console.log(`measured: series of the locus within ${largest.toExponential(1)} of Planck’s law`);
  expect(largest).toBeLessThan(2e-8);
});

test('planckianUv1960(mired) meets the locus computed at 1 nm', () => {
  let largest = 0;
  let rows = 0;
  for (const row of readTable('planckian-locus')) {
    const mired = 1e6 / numberIn(row, 'T_K');
    if (mired > 700) continue; // 1000 K lies outside the range
    rows++;
    const { u, v } = planckianUv1960(mired);
    largest = Math.max(largest, Math.abs(u - numberIn(row, 'u1960')), Math.abs(v - numberIn(row, 'v1960')));
  }
  console.log(`measured: locus within ${largest.toExponential(2)} of ${rows} rows printed to 1e-6`);
  expect(rows).toBe(29);
  // Half a unit in the last printed digit, and what an observer at 5 nm in place of 1 nm costs.
  expect(largest).toBeLessThan(0.5e-6 + 1.2e-6);
});

// Robertson's 1968 rows were computed from the observer as then tabulated and lie up to 7e-6 off.
test.each(readTable('robertson-isotemperature'))('planckianUv1960($mired) meets Robertson’s row', (row) => {
  const mired = numberIn(row, 'mired');
  const { u, v } = planckianUv1960(mired);
  expectWithin(u, numberIn(row, 'u1960'), 7e-6);
  expectWithin(v, numberIn(row, 'v1960'), 7e-6);
  // The isotherm runs square to the locus; held as angles, since a steep slope has few digits.
  const tangent = planckianDerivative(mired, 1);
  expectWithin(Math.atan(-tangent.u / tangent.v), Math.atan(numberIn(row, 'slope_t')), 5e-5);
});

test('the black body of these tests meets the library’s published pair once cut at 780 nm as there', () => {
  // Source: tests of github.com/colour-science/colour; 1 nm there, 5 nm here.
  for (const [kelvin, u, v] of [
    [4000, 0.22510967, 0.334387367],
    [7000, 0.198126929, 0.307025981],
  ] as const) {
    const found = blackBodyUv1960(1e6 / kelvin, 780);
    expectWithin(found.u, u, 1e-6);
    expectWithin(found.v, v, 1e-6);
  }
});

// Recomputed; half a unit in the last digit. A step of 10 mired about these temperatures.
test.each([
  [2750, 0.0036],
  [3100, 0.0037],
  [5250, 0.0047],
  [6250, 0.0049],
])('10 mired at %i K are %f in u′v′', (kelvin, deltaUv) => {
  const from = planckianUv1960(1e6 / kelvin - 5);
  const to = planckianUv1960(1e6 / kelvin + 5);
  expectWithin(Math.hypot(to.u - from.u, 1.5 * (to.v - from.v)), deltaUv, 0.5e-4);
});

test('planckianDerivative(mired, order) is the slope of the order below', () => {
  for (const order of [1, 2] as const)
    for (let mired = 10; mired <= 690; mired += 17) {
      const above = planckianDerivative(mired + 1e-3, order === 1 ? 0 : 1);
      const below = planckianDerivative(mired - 1e-3, order === 1 ? 0 : 1);
      const { u, v } = planckianDerivative(mired, order);
      expectWithin(u, (above.u - below.u) / 2e-3, 1e-10);
      expectWithin(v, (above.v - below.v) / 2e-3, 1e-10);
    }
});

test('planckianUv1960 outside its range and of NaN is NaN', () => {
  for (const mired of [-1e-9, 700.001, Number.NaN]) {
    expect(planckianUv1960(mired).u).toBeNaN();
    expect(planckianUv1960(mired).v).toBeNaN();
  }
});
