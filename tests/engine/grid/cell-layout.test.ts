import { expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { cellLayout } from '../../../src/engine/grid/cell-layout.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { WHOLE_FRAME } from '../../../src/engine/reading.ts';

const LARGEST_SIDE_PX = 7000;

/** Sizes from 16 pixels up, small ones as likely as large ones. */
function* sizes(count: number, seed: number): Generator<[number, number]> {
  const random = seededRandom(seed);
  const side = () => Math.round(16 * (LARGEST_SIDE_PX / 16) ** random.uniform());
  for (let i = 0; i < count; i++) yield [side(), side()];
}

/** How far from square the cells of a division are: 0.05 is 5 %. */
const aspectError = (long: number, short: number, alongLong: number, alongShort: number) =>
  Math.abs((short * alongLong) / (alongShort * long) - 1);

test('cellLayout(size) covers the picture with whole cells of at least 8 × 8 pixels, 96 at the most', () => {
  for (const [width, height] of sizes(3000, 1)) {
    const { columns, rows, xEdges, yEdges } = cellLayout(width, height, WHOLE_FRAME);
    for (const [edges, count, length] of [
      [xEdges, columns, width],
      [yEdges, rows, height],
    ] as const) {
      expect(edges.length).toBe(count + 1);
      expect([edges[0], edges[count]]).toEqual([0, length]);
      const narrowest = Math.min(...edges.subarray(1).map((edge, i) => edge - edges[i]!));
      expect(narrowest, `${width} × ${height}`).toBeGreaterThanOrEqual(8);
      expect(count).toBeLessThanOrEqual(96);
    }
  }
});

test('cellLayout(size) takes the finest division whose cells are square within 5 %, wherever there is one', () => {
  let withSquares = 0;
  for (const [width, height] of sizes(3000, 2)) {
    const { columns, rows } = cellLayout(width, height, WHOLE_FRAME);
    const [long, short] = [Math.max(width, height), Math.min(width, height)];
    const [alongLong, alongShort] = width >= height ? [columns, rows] : [rows, columns];
    let finest = 0;
    for (let a = 2; a <= Math.min(96, Math.floor(long / 8)); a++) {
      for (let b = 1; b <= Math.floor(short / 8); b++)
        if (aspectError(long, short, a, b) <= 0.05) finest = Math.max(finest, a);
    }
    if (finest === 0) continue;
    withSquares++;
    expect(alongLong, `${width} × ${height}`).toBe(finest);
    expect(aspectError(long, short, alongLong, alongShort)).toBeLessThanOrEqual(0.05);
  }
  console.log(`measured: ${withSquares} of 3000 sizes allow square cells, and all of those have them`);
  expect(withSquares).toBeGreaterThan(2000);
});

test('cellLayout(size) has 96 cells along the long side of every camera’s frame', () => {
  for (const [width, height] of [
    [6000, 4000],
    [4000, 6000],
    [5184, 3888],
    [4096, 2160],
    [1200, 800],
    [3000, 3000],
  ] as const) {
    const { columns, rows } = cellLayout(width, height, WHOLE_FRAME);
    expect(Math.max(columns, rows)).toBe(96);
  }
});

test('cellLayout(width, height) is the transpose of cellLayout(height, width)', () => {
  for (const [width, height] of sizes(500, 3)) {
    if (width === height) continue;
    const layout = cellLayout(width, height, WHOLE_FRAME);
    const turned = cellLayout(height, width, WHOLE_FRAME);
    expect([turned.columns, turned.rows]).toEqual([layout.rows, layout.columns]);
    expect(turned.xEdges).toEqual(layout.yEdges);
    expect(turned.yEdges).toEqual(layout.xEdges);
  }
});

test('cellLayout(size) has the mirrored edges in a mirror, but for the middle edge of an odd length', () => {
  for (const [width, height] of sizes(1000, 4)) {
    const { columns, xEdges } = cellLayout(width, height, WHOLE_FRAME);
    for (let i = 0; i <= columns; i++) {
      const off = xEdges[i]! + xEdges[columns - i]! - width;
      const hasNoMiddlePixel = 2 * i === columns && width % 2 === 1;
      expect(Math.abs(off), `${width} wide, edge ${i} of ${columns}`).toBe(hasNoMiddlePixel ? 1 : 0);
    }
  }
});

test('cellLayout(region) rounds the region to whole pixels and divides just that', () => {
  const { region, xEdges, yEdges, columns, rows } = cellLayout(1200, 800, {
    left: 0.1003,
    top: 0.25,
    right: 0.9,
    bottom: 0.7501,
  });
  expect(region).toEqual({ left: 120 / 1200, top: 200 / 800, right: 1080 / 1200, bottom: 600 / 800 });
  expect([xEdges[0], xEdges[columns], yEdges[0], yEdges[rows]]).toEqual([120, 1080, 200, 600]);
  expect([columns, rows]).toEqual([96, 40]);
});

test('cellLayout refuses a region under 16 pixels either way, saying how large it was', () => {
  const refused = (width: number, height: number, region = WHOLE_FRAME) => {
    try {
      cellLayout(width, height, region);
    } catch (error) {
      expect(error).toBeInstanceOf(EngineError);
      return error as EngineError;
    }
    throw new Error('was not refused');
  };
  expect(refused(3, 3).code).toBe('too-small');
  expect(refused(15, 900).message).toMatch(/15 × 900 pixels.*at least 16 × 16.*larger/);
  expect(refused(1000, 1000, { left: 0.4, top: 0, right: 0.41, bottom: 1 }).message).toContain('10 × 1000');
  expect(refused(1000, 1000, { left: 0.6, top: 0, right: 0.4, bottom: 1 }).code).toBe('too-small');
  expect(refused(1000, 1000, { left: Number.NaN, top: 0, right: 1, bottom: 1 }).code).toBe('too-small');
  expect(cellLayout(16, 16, WHOLE_FRAME)).toMatchObject({ columns: 2, rows: 2 });
});
