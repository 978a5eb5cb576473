import { expect, test } from 'vitest';
import { refuseWithoutLight } from '../../../src/engine/grid/refuse-without-light.ts';
import { gridOfLight } from '../fits/grid-of-light.ts';

const black = Math.log2(1e-6);

test('refuseWithoutLight(grid) lets a deep colour pass that is black in one channel', () => {
  expect(() => refuseWithoutLight(gridOfLight(() => [black, -2, -0.7]))).not.toThrow();
  expect(() => refuseWithoutLight(gridOfLight(() => [-0.7, black, black]))).not.toThrow();
});

test('refuseWithoutLight(grid) refuses a frame that is black in all channels', () => {
  expect(() => refuseWithoutLight(gridOfLight(() => [black, black, black]))).toThrow(/black/);
});

test('refuseWithoutLight(grid) refuses a frame that is clipped nearly everywhere', () => {
  const grid = gridOfLight(() => [-0.1, -0.1, -0.1]);
  grid.highlightShare.fill(1);
  expect(() => refuseWithoutLight(grid)).toThrow(expect.objectContaining({ code: 'all-clipped' }));
});
