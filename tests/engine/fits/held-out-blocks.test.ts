import { expect, test } from 'vitest';
import { heldOutBlocks } from '../../../src/engine/fits/held-out-blocks.ts';

test('heldOutBlocks(96, 64) cuts 96 blocks of 8 × 8 cells, dealt evenly into 10 folds', () => {
  const { blocks, folds, blockOfCell, foldOfCell } = heldOutBlocks(96, 64);
  expect([blocks, folds]).toEqual([96, 10]);
  const cellsOfBlock = new Int32Array(blocks);
  const cellsOfFold = new Int32Array(folds);
  blockOfCell.forEach((block, cell) => {
    cellsOfBlock[block]!++;
    cellsOfFold[foldOfCell[cell]!]!++;
    const first = blockOfCell.indexOf(block);
    expect(foldOfCell[cell]).toBe(foldOfCell[first]);
  });
  expect(new Set(cellsOfBlock)).toEqual(new Set([64]));
  expect(Math.max(...cellsOfFold) - Math.min(...cellsOfFold)).toBeLessThanOrEqual(64);
});

test('blocks of one fold never touch, and every fold reaches into every third of the frame', () => {
  const { foldOfCell } = heldOutBlocks(96, 64);
  const foldAt = (column: number, row: number) => foldOfCell[row * 8 * 96 + column * 8]!;
  const thirds = new Set<string>();
  for (let row = 0; row < 8; row++) {
    for (let column = 0; column < 12; column++) {
      thirds.add(`${foldAt(column, row)} ${Math.floor(column / 4)}`);
      for (const [right, down] of [
        [1, 0],
        [0, 1],
        [1, 1],
        [1, -1],
      ] as const) {
        if (column + right > 11 || row + down > 7 || row + down < 0) continue;
        expect(foldAt(column + right, row + down)).not.toBe(foldAt(column, row));
      }
    }
  }
  expect(thirds.size).toBe(30);
});

test('a grid turned by a quarter keeps together what was held out together', () => {
  for (const [columns, rows] of [
    [96, 64],
    [92, 70],
    [83, 60],
    [50, 34],
  ] as const) {
    const upright = heldOutBlocks(columns, rows);
    const turned = heldOutBlocks(rows, columns);
    const renamed = new Map<number, number>();
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const before = upright.foldOfCell[row * columns + column]!;
        const after = turned.foldOfCell[column * rows + (rows - 1 - row)]!;
        if (!renamed.has(before)) renamed.set(before, after);
        expect(after).toBe(renamed.get(before));
      }
    }
    expect(new Set(renamed.values()).size).toBe(renamed.size);
  }
});

test('a small grid gets smaller blocks, down to single cells', () => {
  expect(heldOutBlocks(24, 16).blocks).toBe(24); // of 4 × 4
  expect(heldOutBlocks(2, 2)).toMatchObject({ blocks: 4, folds: 4 });
  expect(heldOutBlocks(3, 1).blocks).toBe(3);
});
