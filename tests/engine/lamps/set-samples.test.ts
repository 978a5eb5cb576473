import { describe, expect, test } from 'vitest';
import { cellLuminance } from '../../../src/engine/diagnosis/cell-luminance.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { setSamples } from '../../../src/engine/lamps/set-samples.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { Exposure } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { uvPrimeOfXyz, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import { creaseShare } from '../../synthetic/studio/creases.ts';
import { type GridOptions, gridOfLight } from '../fits/grid-of-light.ts';

const FRAME = { widthPx: 1500, heightPx: 1000, exposure: null };
const ASPECT = 2 / 3;

const stopsOf = (grid: CellGrid) => cellLuminance(grid).light.map(Math.log2);
const samplesOf = (grid: CellGrid, smooth = stopsOf(grid), frame: Parameters<typeof setSamples>[3] = FRAME) =>
  setSamples(grid, stopsOf(grid), smooth, frame);

/** White light that falls off evenly: the mean of any cells is what it is at the mean of their places. */
const slope =
  (right: number, down: number, level = -1) =>
  (x: number, y: number) => {
    const ev = level + right * (x - 0.5) + down * (y - 0.5);
    return [ev, ev, ev] as const;
  };

/** Sets cells' light to nothing measured. */
function without(grid: CellGrid, isGone: (cell: number) => boolean): CellGrid {
  const gone = (values: Float64Array) => values.map((value, cell) => (isGone(cell) ? Number.NaN : value));
  const { red, green, blue } = grid.light;
  return { ...grid, light: { red: gone(red), green: gone(green), blue: gone(blue) } };
}

function expectOnSlope(samples: ReturnType<typeof setSamples>, right: number, down: number, within: number) {
  const { x, y, ev, levelEv } = samples;
  ev.forEach((value, i) => {
    expectWithin(value + levelEv, -1 + right * x[i]! + (down * y[i]!) / ASPECT, within);
  });
}

describe('setSamples pools cells into blocks', () => {
  test.each([
    ['the whole frame', {}],
    ['a part of it', { region: { left: 0.2, top: 0.3, right: 0.9, bottom: 0.8 }, columns: 96, rows: 46 }],
    ['an upright part', { region: { left: 0.6, top: 0, right: 0.8, bottom: 1 }, columns: 29, rows: 96 }],
    ['few cells', { columns: 10, rows: 7 }],
  ] as const)(
    'of %s, each at the mean place of its cells and with their mean light',
    (_, options: GridOptions) => {
      const grid = gridOfLight(slope(0.7, -0.4), options);
      const samples = samplesOf(grid);
      expectOnSlope(samples, 0.7, -0.4, 2e-4);
      expect(Math.max(...samples.ev)).toBe(0);
      expect(samples.aspect).toBe(ASPECT);
      // as many cells from edge to edge as there are: the mean of all places is the region's middle
      const { left, top, right, bottom } = grid.region;
      const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
      expectWithin(mean(samples.x), (left + right) / 2 - 0.5, 0.02);
      expectWithin(mean(samples.y), ((top + bottom) / 2 - 0.5) * ASPECT, 0.02);
      const long = Math.max(grid.columns, grid.rows);
      const across = Math.round((12 * grid.columns) / long);
      const down = Math.round((12 * grid.rows) / long);
      // twelve along the longer side; of fewer cells one block each
      expect(samples.x).toHaveLength(long < 12 ? grid.columns * grid.rows : across * down);
    },
  );

  test('of exactly 8 × 8 cells, row by row', () => {
    const samples = samplesOf(gridOfLight(slope(0, 0)));
    expect(samples.x).toHaveLength(96);
    expectWithin(samples.x[0]!, 1 / 24 - 0.5, 1e-12);
    expectWithin(samples.x[11]!, 0.5 - 1 / 24, 1e-12);
    expectWithin(samples.y[12]!, (1.5 / 8 - 0.5) * ASPECT, 1e-12);
  });

  test('whose light stays right whichever cells are missing, down to two in five', () => {
    const random = seededRandom(8);
    for (let i = 0; i < 5; i++) {
      const kept = 0.5 + 0.5 * random.uniform();
      const gone = Array.from({ length: 96 * 64 }, () => random.uniform() > kept);
      const grid = without(gridOfLight(slope(-0.5, 0.9)), (cell) => gone[cell]!);
      const samples = samplesOf(grid);
      expect(samples.x.length).toBeGreaterThan(80);
      expectOnSlope(samples, -0.5, 0.9, 2e-4);
    }
    const block = (cell: number) => cell % 96 < 8 && cell < 96 * 8;
    const grid = gridOfLight(slope(0, 0));
    const inBlock = (cell: number) => Math.floor(cell / 96) * 8 + (cell % 96);
    expect(samplesOf(without(grid, (cell) => block(cell) && inBlock(cell) >= 26)).x).toHaveLength(96);
    expect(samplesOf(without(grid, (cell) => block(cell) && inBlock(cell) >= 25)).x).toHaveLength(95);
    expect(samplesOf(without(grid, () => true)).x).toHaveLength(0);
  });

  test('with the chromaticity that the light has there', () => {
    const grid = gridOfLight((x, y) => [-1 + 0.1 * x, -1, -1 - 0.2 * y]);
    const { x, y, uPrime, vPrime } = samplesOf(grid);
    x.forEach((right, i) => {
      const light = [2 ** (-1 + 0.1 * (right + 0.5)), 0.5, 2 ** (-1 - 0.2 * (y[i]! / ASPECT + 0.5))] as const;
      const [u, v] = uvPrimeOfXyz(xyzOfSrgbLight(light));
      expectWithin(uPrime[i]!, u, 5e-5);
      expectWithin(vPrime[i]!, v, 5e-5);
    });
  });
});

describe('what is no part of a set’s light is left out', () => {
  const [RIGHT, DOWN] = [0.4, 0.3];
  const smooth = stopsOf(gridOfLight(slope(RIGHT, DOWN)));

  /** How far blocks lie from the smooth light where cells' light is less by so many stops than that. */
  function shiftsOf(lossEv: (column: number, row: number) => number): number[] {
    const grid = gridOfLight(
      (x, y) => {
        const loss = lossEv(x * 96 - 0.5, y * 64 - 0.5);
        return slope(RIGHT, DOWN)(x, y).map((ev) => ev - loss) as unknown as readonly [
          number,
          number,
          number,
        ];
      },
      { noiseEv: 0.0005 },
    );
    return offSlope(samplesOf(grid, smooth));
  }

  const offSlope = ({ x, y, ev, levelEv }: ReturnType<typeof setSamples>) =>
    Array.from(ev, (value, i) => value + levelEv + 1 - RIGHT * x[i]! - (DOWN * y[i]!) / ASPECT);
  const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));

  test('folds of any direction, averaged over cells, move no block by more than 0.001 EV', () => {
    const random = seededRandom(5);
    const shifts = Array.from({ length: 25 }, () => {
      // 0.04 to 0.15 stop deep and 2 to 6 mm wide in a frame of 600 mm, so that a cell is 6.25 mm
      const share = creaseShare([
        {
          xMm: 240 * (2 * random.uniform() - 1),
          yMm: 160 * (2 * random.uniform() - 1),
          angleDeg: 180 * random.uniform(),
          widthMm: 2 + 4 * random.uniform(),
          depthEv: (random.uniform() < 0.5 ? -1 : 1) * (0.04 + 0.11 * random.uniform()),
        },
      ]);
      return shiftsOf((column, row) => {
        let light = 0;
        for (let i = 0; i < 16; i++) {
          const [right, down] = [((i % 4) - 1.5) / 4, (Math.floor(i / 4) - 1.5) / 4];
          light += share((column + 0.5 + right - 48) * 6.25, (row + 0.5 + down - 32) * 6.25) / 16;
        }
        return -Math.log2(light);
      });
    });
    console.log(
      `measured: folds move a block by ${largest(shifts.flat()).toFixed(5)} EV at most; at least ${Math.min(...shifts.map(({ length }) => length))} of 96 blocks are left`,
    );
    expect(largest(shifts.flat())).toBeLessThan(0.001);
    for (const { length } of shifts) expect(length).toBeGreaterThan(84);
  });

  test('nor do specks', () => {
    const random = seededRandom(6);
    const specks = new Set(Array.from({ length: 150 }, () => Math.floor(96 * 64 * random.uniform())));
    const depth = () => (random.uniform() < 0.8 ? 1 : -1) * (0.02 + random.uniform());
    const shifts = shiftsOf((column, row) =>
      specks.has(Math.round(row) * 96 + Math.round(column)) ? depth() : 0,
    );
    console.log(`measured: 150 specks move a block by ${largest(shifts).toFixed(5)} EV at most`);
    expect(largest(shifts)).toBeLessThan(0.001);
    expect(shifts).toHaveLength(96);
  });

  test('noise is no fold: cells of a noisy frame are kept', () => {
    const noisy = gridOfLight(slope(0.4, 0.3), { noiseEv: 0.03 });
    const samples = samplesOf(noisy, smooth);
    // the middle of a block's cells is its own only where none is left out
    const moved = samples.x.filter((x) => Math.abs((((x + 0.5) * 12) % 1) - 0.5) > 1e-9);
    expect(moved.length).toBeLessThan(5);
    const off = offSlope(samples);
    expect(off).toHaveLength(96);
    const rms = Math.sqrt(off.reduce((sum, each) => sum + each ** 2, 0) / off.length);
    // three channels and 64 cells average the noise away, had they all been kept
    expect(rms).toBeLessThan(0.03 * Math.sqrt(0.2126 ** 2 + 0.7152 ** 2 + 0.0722 ** 2) * (1.25 / 8));
  });

  test('cells with clipped pixels are hidden, and blocks of them', () => {
    const grid = gridOfLight(slope(0.6, 0));
    const highlightShare = Float64Array.from(grid.highlightShare, (_, cell) =>
      cell % 96 >= 84 ? 0.03 : 0.01,
    );
    const clippedLight = (values: Float64Array) =>
      values.map((value, cell) => (cell % 96 >= 84 ? 0.9 * value : value));
    const { red, green, blue } = grid.light;
    const clipped = {
      ...grid,
      highlightShare,
      light: { red: clippedLight(red), green: clippedLight(green), blue: clippedLight(blue) },
    };
    const samples = samplesOf(clipped);
    // the last column of blocks is all clipped, of the one before it half
    expect(samples.x).toHaveLength(88);
    expectOnSlope(samples, 0.6, 0, 1e-9);
  });
});

describe('the level of samples', () => {
  test('levelEv is the brightest block’s luminance against white', () => {
    expectWithin(samplesOf(gridOfLight(slope(0, 0, -2.5))).levelEv, -2.5, 1e-4);
    const { levelEv } = samplesOf(gridOfLight(slope(0.8, 0, -3)));
    expectWithin(levelEv, -3 + 0.8 * (0.5 - 1 / 24), 1e-4);
  });

  const KNOWN: Exposure = { seconds: 1 / 60, fNumber: 8, iso: 200, focalLengthMm: 50, takenAt: null };

  test.each([
    [KNOWN, Math.log2(((1 / 60) * 2) / 64)],
    [{ ...KNOWN, seconds: 1, fNumber: 1, iso: 100 }, 0],
    [{ ...KNOWN, seconds: 2, fNumber: 2, iso: 50 }, -2],
    [{ ...KNOWN, focalLengthMm: null }, Math.log2(((1 / 60) * 2) / 64)],
    [{ ...KNOWN, seconds: null }, null],
    [{ ...KNOWN, fNumber: null }, null],
    [{ ...KNOWN, iso: null }, null],
    [null, null],
  ] as const)('exposureEv of %j is %d', (exposure, expected) => {
    const { exposureEv } = samplesOf(gridOfLight(slope(0, 0)), undefined, { ...FRAME, exposure });
    if (expected === null) expect(exposureEv).toBeNull();
    else expectWithin(exposureEv!, expected, 1e-12);
  });
});
