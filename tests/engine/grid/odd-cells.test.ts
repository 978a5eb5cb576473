import { describe, expect, test } from 'vitest';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { oddCells } from '../../../src/engine/grid/odd-cells.ts';
import { FIELD_FAMILIES } from '../../synthetic/field-families.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { renderFrame, type Speck } from '../../synthetic/render-frame.ts';
import { gridOfLight } from '../fits/grid-of-light.ts';
import { WELL_ELECTRONS } from '../known-frames.ts';
import { frameOfCodes } from './frame-of-codes.ts';

const [WIDTH, HEIGHT] = [960, 640];

function gridOf(seed: number, family: (typeof FIELD_FAMILIES)[number], bits: 8 | 16, specks: Speck[] = []) {
  const { field } = randomField(seed, { family });
  return cellsFromFrame(
    frameOfCodes(
      renderFrame(field, {
        widthPx: WIDTH,
        heightPx: HEIGHT,
        bits,
        curve: 'srgb',
        electronsAtFull: WELL_ELECTRONS,
        seed,
        specks,
      }),
    ),
  );
}

const setAside = ({ light }: ReturnType<typeof gridOf>) => light.green.filter(Number.isNaN).length;

test('cellsFromFrame sets no cell of a smooth or kinked field aside, however noisy', () => {
  const lost: string[] = [];
  for (const family of FIELD_FAMILIES) {
    for (const seed of [1, 2]) {
      const count = setAside(gridOf(seed, family, seed === 1 ? 16 : 8));
      if (count > 0) lost.push(`${family}, seed ${seed}: ${count}`);
    }
  }
  expect(lost).toEqual([]);
});

describe.each([8, 16] as const)('at %i bits cellsFromFrame', (bits) => {
  /** Cells that were set aside, as "column,row", with a bar from `column` on over the upper 30 rows of cells. */
  function lostTo(column: number, columns: number): Set<string> {
    const centre = (column + columns / 2) / 96;
    const bar = {
      shape: 'box',
      x: centre,
      y: 15 / 64,
      widthPx: 10 * columns,
      heightPx: 300,
      transmission: 0.2,
    };
    const grid = gridOf(3, 'quadratic', bits, [bar as Speck]);
    const lost = new Set<string>();
    grid.light.red.forEach((value, i) => {
      if (Number.isNaN(value)) lost.add(`${i % grid.columns},${Math.floor(i / grid.columns)}`);
    });
    return lost;
  }
  const covered = (column: number, columns: number) =>
    Array.from({ length: 30 * columns }, (_, i) => `${column + (i % columns)},${Math.floor(i / columns)}`);

  const isBeyond = (cell: string, from: number, to: number, sideReach: number) => {
    const [column, row] = cell.split(',').map(Number);
    // along the frame's own edge only the cells of that row foretell each other
    const reach = row === 0 ? 2 : sideReach;
    return column! < from - reach || column! > to + reach || row! > 30;
  };

  test('sets aside the cells that a hanger one cell wide covers, and no other away from the edge', () => {
    const lost = lostTo(40, 1);
    expect(covered(40, 1).filter((cell) => !lost.has(cell))).toEqual([]);
    expect([...lost].filter((cell) => isBeyond(cell, 40, 40, 0))).toEqual([]);
  });

  test('sets aside the cells that a hanger two cells wide covers, and at most one cell around them', () => {
    const lost = lostTo(40, 2);
    expect(covered(40, 2).filter((cell) => !lost.has(cell))).toEqual([]);
    expect([...lost].filter((cell) => isBeyond(cell, 40, 41, 1))).toEqual([]);
    console.log(`measured: ${lost.size - 60} cells beside 60 covered ones are lost with them, ${bits} bits`);
  });
});

test('oddCells(grid) asks for specks beside a small departure, and for none beside a large one', () => {
  const at = 20 * 96 + 30;
  const withDeparture = (ev: number, speckShare: number) => {
    const grid = gridOfLight((x, y) => [-1 - x, -1 - y, -1], { noiseEv: 0.001 });
    for (const channel of [grid.light.red, grid.light.green, grid.light.blue]) channel[at]! *= 2 ** ev;
    grid.speckShare[at + 1] = speckShare;
    return [...oddCells(grid)].flatMap((odd, cell) => (odd ? [cell] : []));
  };
  expect(withDeparture(-0.1, 0)).toEqual([]);
  expect(withDeparture(-0.1, 0.1)).toEqual([at]);
  expect(withDeparture(0.1, 0.1)).toEqual([at]);
  expect(withDeparture(-0.02, 0.1)).toEqual([]);
  expect(withDeparture(-0.7, 0)).toEqual([at]);
});

test('oddCells(grid) never marks a cell without measurement, nor lets one spoil its neighbours', () => {
  const grid = gridOfLight((x) => [-1 - x, -1 - x, -1 - x]);
  grid.light.red[500] = Number.NaN;
  grid.light.red[501] = 0;
  grid.light.green[501] = 0;
  grid.light.blue[501] = 0;
  expect(oddCells(grid)[500]).toBe(0);
  expect([...oddCells(grid)].filter((odd) => odd).length).toBeLessThanOrEqual(1);
});
