import { expect, test } from 'vitest';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { oncePerGrid } from '../../../src/engine/grid/once-per-grid.ts';

test('what is worked out of a grid is worked out once, and of each grid by itself', () => {
  const asked: CellGrid[] = [];
  const columnsOf = oncePerGrid((grid) => {
    asked.push(grid);
    return grid.columns;
  });
  const [wide, narrow] = [{ columns: 96 } as CellGrid, { columns: 12 } as CellGrid];
  expect([wide, narrow, wide, narrow].map(columnsOf)).toEqual([96, 12, 96, 12]);
  expect(asked).toEqual([wide, narrow]);
});

test('what could not be worked out is tried again', () => {
  let tries = 0;
  const never = oncePerGrid(() => {
    tries++;
    throw new RangeError('no light');
  });
  const grid = { columns: 1 } as CellGrid;
  expect(() => never(grid)).toThrow(RangeError);
  expect(() => never(grid)).toThrow(RangeError);
  expect(tries).toBe(2);
});
