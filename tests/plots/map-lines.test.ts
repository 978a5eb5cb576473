import { expect, test } from 'vitest';
import { cellMap } from '../../src/plots/cell-map.ts';
import { drawnAtOnce } from '../../src/plots/drawn-in-steps.ts';
import { mapLines, rememberedMapLines } from '../../src/plots/map-lines.ts';
import { falloffPlot } from '../../src/plots/map-plot.ts';
import { readingFixture } from './reading-fixture.ts';

const SIZE = { width: 480, height: 320, fontSize: 13 };
const TOLERANCE = {
  name: '0.3 stop',
  source: 'common practice, no published source',
  measure: 'range',
  limit: 0.3,
  tintDeltaUv: 0.004,
  castDeltaUv: 0.005,
} as const;

function slope(fall: number, hole = -1) {
  const reading = readingFixture({ ev: (x) => (Math.abs(x - hole) < 0.02 ? null : -fall * x) });
  return cellMap(reading.grid, reading.falloff.evMap);
}

test('rememberedMapLines() keeps the lines of an equal map, holes and all, and of no other', () => {
  const linesOf = rememberedMapLines();
  const options = { ...SIZE, unit: 0.1 };
  const first = linesOf(slope(0.8, 0.5), options);
  expect(linesOf(slope(0.8, 0.5), options)).toBe(first);
  expect(linesOf(slope(0.8), options)).not.toBe(first);
  const other = linesOf(slope(0.9), options);
  expect(other.at(-0.5)).toEqual(mapLines(slope(0.9), options).at(-0.5));
  expect(linesOf(slope(0.9), { ...options, width: 481 })).not.toBe(other);
  expect(linesOf(slope(0.9), { ...options, fontSize: 26 })).not.toBe(other);
});

test('falloffPlot(reading) with remembered lines draws the same as without, whatever the limit before', () => {
  const reading = readingFixture({ ev: (x, y) => -1.1 * (x - 0.3) ** 2 - 0.7 * (y - 0.6) ** 2 });
  const unclipped = new Float64Array(reading.grid.columns * reading.grid.rows);
  const linesOf = rememberedMapLines();
  for (const limit of [0.3, 0.22, 0.5, 0.3]) {
    const tolerance = { ...TOLERANCE, limit };
    const remembered = drawnAtOnce(falloffPlot(reading, tolerance, SIZE, unclipped, linesOf));
    expect(remembered).toEqual(drawnAtOnce(falloffPlot(reading, tolerance, SIZE, unclipped)));
  }
});
