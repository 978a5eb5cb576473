import { expect, test } from 'vitest';
import { fitSurfaces } from '../../../src/engine/fits/fit-surfaces.ts';
import { leftOverEv } from '../../../src/engine/profile/left-over.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfLight } from '../fits/grid-of-light.ts';

const bowl = (x: number, y: number) => (x - 0.5) ** 2 + (y - 0.5) ** 2;
const grid = gridOfLight((x, y) => [-1 - bowl(x, y), -1 - bowl(x, y), -1 - bowl(x, y)]);
const surface = (name: string) => fitSurfaces(grid).find((each) => each.name === name)!;

test('a surface of the light’s own kind leaves nothing over', () => {
  for (const value of leftOverEv(grid, surface('quadratic'))) expectWithin(value, 0, 1e-9);
});

test('a plane leaves the bowl over, in stops: up in the middle, down in the corners', () => {
  const left = leftOverEv(grid, surface('plane'));
  const middle = left[Math.floor(grid.rows / 2) * grid.columns + Math.floor(grid.columns / 2)]!;
  expect(middle).toBeGreaterThan(0.1);
  expect(left[0]!).toBeLessThan(-0.1);
  const mean = left.reduce((sum, value) => sum + value, 0) / left.length;
  expectWithin(mean, 0, 0.01);
  expectWithin(middle - left[0]!, bowl(0, 0) - bowl(0.5, 0.5), 0.02);
});

test('says nothing of a cell without a measurement', () => {
  const light = {
    ...grid.light,
    red: grid.light.red.slice(),
    green: grid.light.green.slice(),
    blue: grid.light.blue.slice(),
  };
  for (const channel of [light.red, light.green, light.blue]) channel[7] = Number.NaN;
  const left = leftOverEv({ ...grid, light }, surface('plane'));
  expect(left[7]).toBeNaN();
  expect(left.filter(Number.isNaN)).toHaveLength(1);
});
