import { expect, test } from 'vitest';
import { measureCells } from '../../../src/engine/fits/measure-cells.ts';
import type { FrameFacts } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfLight } from './grid-of-light.ts';

const small = { columns: 24, rows: 16 };
const grid = gridOfLight((x) => [-1 - x, -1 - x, -1 - x], { ...small, noiseEv: 0.001 });
const measured = (doubtEv?: (bright: number, dark: number) => number) =>
  measureCells(grid, grid.light, {} as FrameFacts, doubtEv ? { doubtEv } : {});

test('a doubt of the light widens the ± in stops by what it comes to between the levels, and no other', () => {
  const plain = measured().measurement;
  // a tenth of every falloff in doubt
  const { measurement, asRead } = measured((bright, dark) => 0.1 * Math.log2(bright / dark));
  const { falloff, gradient } = measurement;
  expect(asRead).toEqual(plain);
  expectWithin(falloff.plusMinusEv, Math.hypot(plain.falloff.plusMinusEv, 0.1 * falloff.spreadEv), 1e-12);
  expectWithin(gradient.plusMinusEv, Math.hypot(plain.gradient.plusMinusEv, 0.1 * gradient.ev), 1e-9);
  const squares = falloff.evMap.reduce<number>((sum, ev) => sum + (0.1 * ev!) ** 2, 0);
  expectWithin(
    falloff.cellPlusMinusEv,
    Math.hypot(plain.falloff.cellPlusMinusEv, Math.sqrt(squares / falloff.evMap.length)),
    1e-9,
  );
  expect(measurement.tint).toEqual(plain.tint);
  expect(measurement.cast).toEqual(plain.cast);
  expect(falloff.evMap).toEqual(plain.falloff.evMap);
});

test('a doubt larger than the slope leaves the gradient no angle', () => {
  expect(measured(() => 5).measurement.gradient.angleDeg).toBeNull();
});
