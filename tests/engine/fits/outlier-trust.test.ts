import { expect, test } from 'vitest';
import { surfaceAtCells } from '../../../src/engine/fits/evaluate-surface.ts';
import { fitSurfaces } from '../../../src/engine/fits/fit-surfaces.ts';
import { outlierTrust } from '../../../src/engine/fits/outlier-trust.ts';
import { usableCells } from '../../../src/engine/fits/usable-cells.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { gridOfLight } from './grid-of-light.ts';

const NOISE_EV = 0.003;

function offCentreLight(x: number, y: number): [number, number, number] {
  const level = -1 - 1.2 * ((x - 0.3) ** 2 + (y - 0.6) ** 2);
  return [level, level - 0.03 * x, level - 0.1];
}

/** Takes `stops` of light away from the cells that `struck` picks. */
function darkened(grid: CellGrid, stops: number, struck: (column: number, row: number) => boolean): CellGrid {
  const darken = (light: Float64Array) =>
    light.map((value, at) =>
      struck(at % grid.columns, Math.floor(at / grid.columns)) ? value * 2 ** -stops : value,
    );
  const { red, green, blue } = grid.light;
  return { ...grid, light: { red: darken(red), green: darken(green), blue: darken(blue) } };
}

function largestShiftEv(clean: CellGrid, struck: CellGrid): string[] {
  const after = fitSurfaces(struck);
  return fitSurfaces(clean).map((surface, number) => {
    const before = surfaceAtCells(surface, clean);
    const moved = surfaceAtCells(after[number]!, clean);
    let largest = 0;
    for (const channel of ['red', 'green', 'blue'] as const) {
      before[channel].forEach((value, at) => {
        largest = Math.max(largest, Math.abs(value - moved[channel][at]!));
      });
    }
    expect(largest, surface.name).toBeLessThanOrEqual(0.01);
    return `${surface.name} ${largest.toFixed(4)} EV`;
  });
}

const clean = gridOfLight(offCentreLight, { noiseEv: NOISE_EV });
const cases: [string, number, (column: number, row: number) => boolean][] = [
  ['a speck of one cell', 0.5, (c, r) => c === 40 && r === 20],
  [
    'specks of three by three cells',
    0.5,
    (c, r) => [10, 41, 80].some((at) => c >= at && c < at + 3 && r >= 30 && r < 33),
  ],
  ['a speck in the corner', 0.5, (c, r) => c < 2 && r < 2],
  ['specks along an edge', 0.3, (c, r) => r < 2 && c % 16 < 2],
  ['a faint speck of four by three cells', 0.03, (c, r) => Math.abs(c - 50) < 2 && Math.abs(r - 30) < 2],
  [
    'a speck just too faint to be told from light',
    0.045,
    (c, r) => Math.abs(c - 50) < 2 && Math.abs(r - 30) < 2,
  ],
  ['a slanting crease', 0.1, (c, r) => Math.abs(c - 20 - 0.7 * r) < 1],
  ['an upright crease two cells wide', 0.2, (c) => c === 60 || c === 61],
];
for (const [what, stops, struck] of cases) {
  test(`${what} moves no surface by more than 0.01 EV`, () => {
    console.log(
      `measured: ${what} moves the ${largestShiftEv(clean, darkened(clean, stops, struck)).join(', the ')}`,
    );
  });
}

test('outlierTrust(grid, cells) trusts the middle of a hot spot that no plane can follow', () => {
  const grid = gridOfLight(
    (x, y) => {
      const level = -2 + 1.5 * Math.exp(-((x - 0.5) ** 2 * 2.25 + (y - 0.5) ** 2) / (2 * 0.2 ** 2));
      return [level, level, level];
    },
    { noiseEv: NOISE_EV },
  );
  const trust = outlierTrust(grid, usableCells(grid));
  const lowest = [31, 32].flatMap((row) => [47, 48].map((column) => trust[row * 96 + column]!));
  expect(Math.min(...lowest)).toBeGreaterThan(0.3);
  const mean = trust.reduce((sum, value) => sum + value, 0) / trust.length;
  console.log(`measured: mean trust of a noisy hot spot ${mean.toFixed(3)}`);
  expect(mean).toBeGreaterThan(0.85);
});

test('outlierTrust(grid, cells) trusts no cell of a speck', () => {
  const grid = darkened(clean, 0.1, (c, r) => Math.abs(c - 50) < 2 && Math.abs(r - 30) < 2);
  const trust = outlierTrust(grid, usableCells(grid));
  expect(trust[30 * 96 + 50]).toBe(0);
  expect(trust[29 * 96 + 51]).toBe(0);
});

test('outlierTrust(grid, cells) trusts every cell of a grid too small to tell', () => {
  const grid = gridOfLight(offCentreLight, { columns: 4, rows: 3 });
  expect([...outlierTrust(grid, usableCells(grid))]).toEqual(new Array(12).fill(1));
});
