import { expect, test } from 'vitest';
import { cellsLight, levelStops } from '../../../src/engine/grid/cells-light.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfLight } from '../fits/grid-of-light.ts';

test('cellsLight(grid) adds the channels up, and levelStops(grid) the cells that were measured', () => {
  const grid = gridOfLight(() => [-1, -2, -3], { columns: 12, rows: 8 });
  expectWithin(cellsLight(grid)[5]!, 0.875, 1e-12);
  expectWithin(levelStops(grid), Math.log2(96 * 0.875), 1e-12);
  grid.light.green.fill(Number.NaN, 0, 48);
  expect(cellsLight(grid)[5]).toBeNaN();
  expectWithin(levelStops(grid), Math.log2(48 * 0.875), 1e-12);
});
