import { expect, test } from 'vitest';
import { toneCurveAllowance } from '../../../src/engine/frame/tone-curve-allowance.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { toneCurve } from '../../synthetic/tone-curve.ts';

test('toneCurveAllowance(bright, dark) holds what curves of another make do, in 95 of 100 falloffs', () => {
  const random = seededRandom(7);
  let inside = 0;
  let allowed = 0;
  const rounds = 2000;
  for (let round = 0; round < rounds; round++) {
    // picture styles from none to a lively one, falloffs up to two stops anywhere below white
    const curve = toneCurve(1 + 0.5 * random.uniform());
    const bright = 0.95 * 2 ** (-3 * random.uniform());
    const dark = bright * 2 ** (-2 * random.uniform());
    const [shownBright, shownDark] = [curve(bright), curve(dark)];
    const off = Math.log2(shownBright / shownDark) - Math.log2(bright / dark);
    const allowance = toneCurveAllowance(shownBright, shownDark);
    allowed += allowance;
    if (Math.abs(off) <= allowance) inside++;
  }
  console.log(
    `measured: a drawn tone curve is allowed for in ${((100 * inside) / rounds).toFixed(1)} % of ${rounds} falloffs, by ${(allowed / rounds).toFixed(2)} EV on average`,
  );
  expect(inside / rounds).toBeGreaterThanOrEqual(0.95);
});

test('toneCurveAllowance(bright, dark) is most below white and nothing for no falloff', () => {
  expect(toneCurveAllowance(0.4, 0.4)).toBe(0);
  const [top, middle] = [toneCurveAllowance(1, 0.5), toneCurveAllowance(0.5, 0.25)];
  console.log(
    `measured: a tone curve is allowed ${top.toFixed(2)} EV in the first stop below white, ${middle.toFixed(2)} in the second`,
  );
  expect(top).toBeGreaterThan(middle);
  expect(top).toBeLessThan(1);
  expect(middle).toBeGreaterThan(0.1);
  expect(toneCurveAllowance(1.02, 0.5)).toBe(top);
});
