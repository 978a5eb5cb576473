import { expect, test } from 'vitest';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { expectWithin } from '../../expect-within.ts';
import { exposedBy, randomField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { cellMeans } from '../../synthetic/true-cells.ts';
import { storedAs } from '../../synthetic/turn-frame.ts';
import { frameOfCodes } from './frame-of-codes.ts';

const { field } = randomField(8, { family: 'hot-spot', spreadEv: 2 });
const options = {
  widthPx: 500,
  heightPx: 340,
  bits: 16,
  curve: 'srgb',
  electronsAtFull: null,
  seed: 1,
} as const;
const rendered = renderFrame(field, options);

test('cellsFromFrame(region) averages the light of just that region, cell by cell', () => {
  const region = { left: 0.2, top: 0.1, right: 0.8, bottom: 0.6 };
  const grid = cellsFromFrame(frameOfCodes(rendered), region);
  expect(grid.region).toEqual(region);
  expectWithin(grid.cellWidthPx * grid.columns, 300, 1e-9);
  expectWithin(grid.cellHeightPx * grid.rows, 170, 1e-9);
  const m = grid.toXyz;
  const truth = cellMeans(field, { columns: grid.columns, rows: grid.rows, region });
  let worst = 0;
  truth.forEach(([, y], i) => {
    const light = m[3] * grid.light.red[i]! + m[4] * grid.light.green[i]! + m[5] * grid.light.blue[i]!;
    worst = Math.max(worst, Math.abs(Math.log2(light / y)));
  });
  console.log(`measured: cells of a region lie within ${worst.toFixed(5)} EV of its own light`);
  expect(worst).toBeLessThan(0.001);
});

test('cellsFromFrame gives the same grid, to the last bit, from a file of any orientation', () => {
  const upright = cellsFromFrame(frameOfCodes(rendered));
  for (let orientation = 2; orientation <= 8; orientation++) {
    const turned = cellsFromFrame(frameOfCodes(storedAs(rendered, orientation), { orientation }));
    expect([turned.columns, turned.rows]).toEqual([upright.columns, upright.rows]);
    for (const channel of ['red', 'green', 'blue'] as const) {
      const off = turned.light[channel].map((value, i) =>
        Math.abs(Math.log2(value / upright.light[channel][i]!)),
      );
      expect(Math.max(...off)).toBeLessThan(1e-12); // sums in another order
    }
    expect(turned.pixels).toEqual(upright.pixels);
  }
});

test('cellsFromFrame reports its progress up to the end', () => {
  const fractions: number[] = [];
  cellsFromFrame(frameOfCodes(rendered), undefined, (fraction) => fractions.push(fraction));
  expect(fractions.at(-1)).toBe(1);
  expect([...fractions].sort((a, b) => a - b)).toEqual(fractions);
});

test('cellsFromFrame tells how much of each cell is clipped, and 0 where nothing is', () => {
  const grid = cellsFromFrame(frameOfCodes(renderFrame(exposedBy(field, 1), options)));
  const truth = cellMeans(exposedBy(field, 1), grid);
  const clipped = grid.highlightShare.filter((share) => share === 1).length;
  const free = grid.highlightShare.filter((share) => share === 0).length;
  expect(clipped).toBeGreaterThan(20);
  expect(free).toBeGreaterThan(200);
  expect(truth.length).toBe(grid.highlightShare.length);
  expect(grid.shadowShare.every((share) => share === 0)).toBe(true);
});
