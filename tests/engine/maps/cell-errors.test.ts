import { describe, expect, test } from 'vitest';
import type { CellChannels, CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { scatterWithoutSlope } from '../../../src/engine/grid/scatter-without-slope.ts';
import { cellErrors } from '../../../src/engine/maps/cell-errors.ts';
import { addRoundingErrors, roundingErrors } from '../../../src/engine/maps/rounding-error.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { decodeSrgb, encodeSrgb } from '../../synthetic/code-thresholds.ts';
import { gridOfLight } from '../fits/grid-of-light.ts';

const [COLUMNS, ROWS, CELL_PX] = [96, 64, 12];
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const rms = (values: ArrayLike<number>) => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]! ** 2;
  return Math.sqrt(sum / values.length);
};

/** Scatter of pixels that lie evenly along the slope through their cell, each with noise of its own. */
function slopedScatter(light: Float64Array, relativeNoise: number): Float64Array {
  const slope = (i: number, stride: number, position: number, count: number) => {
    const before = position > 0 ? i - stride : i;
    const after = position < count - 1 ? i + stride : i;
    return ((light[after]! - light[before]!) * stride) / (after - before);
  };
  return light.map((value, i) => {
    const across = slope(i, 1, i % COLUMNS, COLUMNS);
    const down = slope(i, COLUMNS, Math.floor(i / COLUMNS), ROWS);
    const variance = ((across ** 2 + down ** 2) * (1 - 1 / CELL_PX ** 2)) / 12;
    return Math.sqrt((relativeNoise * value) ** 2 + variance);
  });
}

/** A grid of gently falling light whose cells have errors of known size, correlated between channels as told. */
function noisyGrid(
  relative: number,
  correlation: number,
  excess: number,
  seed = 31,
): { grid: CellGrid; smooth: CellChannels } {
  const clean = gridOfLight((x, y) => [-1 - x, -1 - x - 0.3 * y * y, -1.4 - 0.5 * y], {
    columns: COLUMNS,
    rows: ROWS,
    cellPx: CELL_PX,
  });
  const random = seededRandom(seed);
  const light = {
    red: clean.light.red.slice(),
    green: clean.light.green.slice(),
    blue: clean.light.blue.slice(),
  };
  for (let i = 0; i < light.red.length; i++) {
    const shared = random.normal();
    for (const channel of [light.red, light.green, light.blue]) {
      const own = Math.sqrt(correlation) * shared + Math.sqrt(1 - correlation) * random.normal();
      channel[i]! *= 1 + ((relative * excess) / CELL_PX) * own;
    }
  }
  const scatter = (values: Float64Array) => slopedScatter(values, relative);
  const { red, green, blue } = clean.light;
  const grid = {
    ...clean,
    light,
    scatter: { red: scatter(red), green: scatter(green), blue: scatter(blue) },
  };
  return { grid, smooth: clean.light };
}

/** Correlations red–green, red–blue, green–blue that a lower triangle mixes. */
const correlations = ([, m21, m22, m31, m32]: readonly number[]) => [m21!, m31!, m21! * m31! + m22! * m32!];

describe('cellErrors(grid)', () => {
  test.each([
    [0, 1],
    [0.5, 1],
    [0.9, 1],
    [0.3, 3],
  ])(
    'recovers the noise of cells and a correlation of %f, where it is %f times that of single pixels',
    (correlation, excess) => {
      const ratios: number[] = [];
      const found: number[] = [];
      for (let seed = 1; seed <= 6; seed++) {
        const { grid, smooth } = noisyGrid(0.01, correlation, excess, seed);
        const { sigma, mixing } = cellErrors(grid, smooth);
        for (const name of ['red', 'green', 'blue'] as const) {
          const relative = rms(sigma[name].map((value, i) => value / smooth[name][i]!));
          ratios.push(relative / ((0.01 * excess) / CELL_PX));
        }
        found.push(...correlations(mixing));
        const [m11, m21, m22, m31, m32, m33] = mixing;
        expectWithin(m11, 1, 1e-12);
        expectWithin(m21 ** 2 + m22 ** 2, 1, 1e-9);
        expectWithin(m31 ** 2 + m32 ** 2 + m33 ** 2, 1, 1e-9);
      }
      console.log(
        `measured: noise of cells ${mean(ratios).toFixed(3)} of the truth, correlation ${mean(found).toFixed(3)} for ${correlation}`,
      );
      // overlapping differences of 6144 cells count as 1500: a median of them is known to 3 %
      for (const ratio of ratios) expectWithin(ratio, 1, 0.1);
      expectWithin(mean(ratios), 1, 0.03);
      for (const value of found) expectWithin(value, correlation, 0.1);
      expectWithin(mean(found), correlation, 0.03);
    },
  );

  test('never takes a cell for quieter than its own pixels say', () => {
    const { grid, smooth } = noisyGrid(0.01, 0, 0.2);
    const { sigma } = cellErrors(grid, smooth);
    expectWithin(rms(sigma.green.map((v, i) => v / smooth.green[i]!)) / (0.01 / CELL_PX), 1, 0.02);
  });

  test('gives finite errors without any noise, and looks past gaps', () => {
    const { grid, smooth } = noisyGrid(0, 0, 1);
    expect(cellErrors(grid, smooth).mixing.every(Number.isFinite)).toBe(true);
    for (const channel of [grid.light.red, grid.light.green, grid.light.blue])
      channel.fill(Number.NaN, 900, 960);
    const { sigma, mixing } = cellErrors(grid, smooth);
    expect(mixing.every(Number.isFinite)).toBe(true);
    expect(sigma.green.every(Number.isFinite)).toBe(true);
  });
});

test('scatterWithoutSlope takes out what the slope through a cell adds, and leaves the noise', () => {
  const { grid, smooth } = noisyGrid(0, 0, 1);
  const noise = 0.004;
  const scatterOf = (light: Float64Array) => slopedScatter(light, noise);
  const sloped = {
    ...grid,
    scatter: { red: scatterOf(smooth.red), green: scatterOf(smooth.green), blue: scatterOf(smooth.blue) },
  };
  const { red, blue } = scatterWithoutSlope(sloped, smooth);
  expectWithin(rms(red.map((v, i) => v / smooth.red[i]!)) / noise, 1, 0.02);
  expectWithin(rms(blue.map((v, i) => v / smooth.blue[i]!)) / noise, 1, 0.02);
  const before = rms(sloped.scatter.red.map((v, i) => v / smooth.red[i]!)) / noise;
  expect(before).toBeGreaterThan(1.1);
});

test('rounding errors drawn for an 8-bit frame without noise are as large as those that rounding really leaves', () => {
  const level = (x: number, y: number): [number, number, number] => [
    -1.2 - 0.15 * x,
    -1 - 0.15 * x - 0.05 * y,
    -1.1 - 0.1 * y,
  ];
  const lightAtCode = Float64Array.from({ length: 256 }, (_, code) => decodeSrgb(code / 255));
  const clean = gridOfLight(level, { columns: COLUMNS, rows: ROWS, cellPx: CELL_PX });
  const grid: CellGrid = {
    ...clean,
    lightAtCode: { red: lightAtCode, green: lightAtCode, blue: lightAtCode },
  };
  const zero = new Float64Array(COLUMNS * ROWS);
  const prepared = roundingErrors(grid, clean.light, { red: zero, green: zero, blue: zero });
  // what rounding leaves of the mean of a cell's pixels, tried out
  const really: number[] = [];
  for (let row = 0; row < ROWS; row += 3) {
    for (let column = 0; column < COLUMNS; column++) {
      let [rounded, exact] = [0, 0];
      for (let p = 0; p < CELL_PX ** 2; p++) {
        const x = (column + ((p % CELL_PX) + 0.5) / CELL_PX) / COLUMNS;
        const y = (row + (Math.floor(p / CELL_PX) + 0.5) / CELL_PX) / ROWS;
        const light = 2 ** level(x, y)[1];
        rounded += lightAtCode[Math.round(255 * encodeSrgb(light))]!;
        exact += light;
      }
      really.push(Math.log2(rounded / exact));
    }
  }
  const random = seededRandom(2);
  const drawn: number[] = [];
  for (let draw = 0; draw < 20; draw++) {
    const light = {
      red: clean.light.red.slice(),
      green: clean.light.green.slice(),
      blue: clean.light.blue.slice(),
    };
    addRoundingErrors(prepared, random.uniform, light);
    light.green.forEach((value, i) => {
      drawn.push(Math.log2(value / clean.light.green[i]!));
    });
  }
  console.log(
    `measured: rounding leaves ${rms(really).toFixed(5)} EV a cell, drawn are ${rms(drawn).toFixed(5)} EV`,
  );
  expect(rms(really)).toBeGreaterThan(0.002);
  expectWithin(rms(drawn) / rms(really), 1, 0.1);
});

test('rounding errors vanish where noise dithers every code', () => {
  const { grid, smooth } = noisyGrid(0.01, 0, 1);
  const lightAtCode = Float64Array.from({ length: 256 }, (_, code) => decodeSrgb(code / 255));
  const coded = { ...grid, lightAtCode: { red: lightAtCode, green: lightAtCode, blue: lightAtCode } };
  const noise = smooth.green.map(() => 0.02); // three codes and more
  const light = { red: smooth.red.slice(), green: smooth.green.slice(), blue: smooth.blue.slice() };
  addRoundingErrors(
    roundingErrors(coded, smooth, { red: noise, green: noise, blue: noise }),
    seededRandom(1).uniform,
    light,
  );
  light.green.forEach((value, i) => {
    expectWithin(Math.log2(value / smooth.green[i]!), 0, 1e-5);
  });
});
