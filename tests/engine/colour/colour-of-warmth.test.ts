import { expect, test } from 'vitest';
import { colourOfWarmth } from '../../../src/engine/colour/colour-of-warmth.ts';
import { warmthFromD65 } from '../../../src/engine/colour/warmth.ts';
import { expectWithin } from '../../expect-within.ts';

test('colourOfWarmth(mired, duv) comes back through warmthFromD65', () => {
  let worst = 0;
  for (let mired = -100; mired <= 350; mired += 10)
    for (const duv of [-0.02, -0.005, 0, 0.005, 0.02]) {
      const { uPrime, vPrime } = colourOfWarmth(mired, duv);
      const back = warmthFromD65(uPrime, vPrime)!;
      worst = Math.max(worst, Math.abs(back.mired - mired), 1e4 * Math.abs(back.duv - duv));
    }
  console.log(`measured: colour of warmth and back, ${worst.toExponential(1)} mired or 1e-4 Duv at most`);
  expect(worst).toBeLessThan(0.01);
});

test('colourOfWarmth(0, 0) is D65, warmer is redder, greener lies higher', () => {
  const white = colourOfWarmth(0, 0);
  expectWithin(white.uPrime, 0.1978, 5e-5); // CIE 15, D65
  expectWithin(white.vPrime, 0.4683, 5e-5);
  expect(colourOfWarmth(40, 0).uPrime).toBeGreaterThan(white.uPrime);
  expect(colourOfWarmth(0, 0.01).vPrime).toBeGreaterThan(white.vPrime);
  expect(colourOfWarmth(900, 0).uPrime).toBeNaN();
});
