import { expect, test } from 'vitest';
import { lightLevel } from '../../../src/engine/diagnosis/light-level.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfScene } from './frame-of-light.ts';
import { gridOf } from './measurement-of.ts';

test('lightLevel(grid) counts the stops from the brightest part to half the white code', () => {
  expectWithin(lightLevel(gridOf({ ev: () => 0, level: 0.125 })).stopsToAim, 2, 1e-9);
  expectWithin(lightLevel(gridOf({ ev: () => 0, level: 0.9 })).stopsToAim, -0.848, 1e-3);
});

test('lightLevel(grid) grows with noise as its share of the light', () => {
  const at = (level: number, scatter: number) =>
    lightLevel(gridOf({ ev: () => 0, level, scatter })).plusMinusEv;
  // √2 × 1.96 × 0.01 / (0.1 × ln 2 × √(625 × 9)) = 0.00533
  expectWithin(at(0.1, 0.01), 0.00533, 1e-5);
  expectWithin(at(0.05, 0.01) / at(0.1, 0.01), 2, 1e-3);
});

test('lightLevel(grid) knows what 8-bit codes hide in a still, even field, and that noise sets it free', async () => {
  const still = lightLevel(await gridOfScene({ light: () => 0.05 })).plusMinusEv;
  // step at code 63: 0.0446 stop; √2 × 0.95 / 2 of it
  expectWithin(still, 0.03, 0.002);
  const stirred = lightLevel(await gridOfScene({ light: () => 0.05, electrons: 30000 })).plusMinusEv;
  const swept = lightLevel(await gridOfScene({ light: (x) => 0.1 * 2 ** (-2 * x) })).plusMinusEv;
  console.log(
    `measured: at code 63: still ±${still}, with noise ±${stirred}, under a falloff ±${swept} stop`,
  );
  expect(stirred).toBeLessThan(still / 2);
  expect(swept).toBeLessThan(still / 2);
});
