import { expect, test } from 'vitest';
import { hiddenStops } from '../../../src/engine/frame/hidden-stops.ts';
import { expectWithin } from '../../expect-within.ts';

test('hiddenStops(bright, dark) follows a curve that meets all that was asked of it', () => {
  // mid grey decoded 0.18 stands for 10/78 of the scene's white: log2(7.8) stops instead of log2(1/0.18)
  expectWithin(hiddenStops(1, 0.18), Math.log2(7.8) - Math.log2(1 / 0.18), 1e-9);
  // contrast 1.2 at mid grey: a small decoded step is 1.2 times the scene's
  const step = Math.log2(0.1801 / 0.1799);
  expectWithin((step + hiddenStops(0.1801, 0.1799)) / step, 1 / 1.2, 1e-4);
});

test('hiddenStops(bright, dark) is most below white, adds up, and vanishes for no falloff', () => {
  const [first, second] = [hiddenStops(1, 0.5), hiddenStops(0.5, 0.25)];
  console.log(
    `measured: an estimated ${first.toFixed(2)} stop hidden in the first stop below white, ${second.toFixed(2)} in the second`,
  );
  expect(first).toBeGreaterThan(0.3);
  expect(first).toBeLessThan(1);
  expect(Math.abs(second)).toBeLessThan(0.05);
  expectWithin(hiddenStops(1, 0.25), first + second, 1e-12);
  expectWithin(hiddenStops(0.4, 0.4), 0, 1e-12);
});
