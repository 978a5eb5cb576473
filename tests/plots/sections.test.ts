import { expect, test } from 'vitest';
import { cellsPath } from '../../src/plots/cells-path.ts';
import { crossSection } from '../../src/plots/cross-section.ts';
import { gradientLine } from '../../src/plots/gradient-line.ts';
import { spotReading } from '../../src/plots/spot-reading.ts';
import { stopAxis } from '../../src/plots/stop-axis.ts';
import { toleranceLevels } from '../../src/plots/tolerance-levels.ts';
import { expectWithin } from '../expect-within.ts';
import { readingFixture } from './reading-fixture.ts';

const MAP = { columns: 3, rows: 2, values: Float64Array.of(0, -0.5, -1, -0.25, Number.NaN, -0.75) };

test('crossSection(map, row) runs through the cells’ middles', () => {
  const cut = crossSection(
    MAP,
    { direction: 'across', row: 0 },
    (cells) => cells * 10,
    (ev) => -ev * 100,
  );
  expect(cut.path).toBe('M5,0L15,50L25,100');
});

test('crossSection(map, column) runs down, and stops at a hole', () => {
  const down = crossSection(
    MAP,
    { direction: 'down', column: 2 },
    (cells) => cells * 10,
    (ev) => -ev * 100,
  );
  expect(down.path).toBe('M100,5L75,15');
  const broken = crossSection(
    MAP,
    { direction: 'across', row: 1 },
    (cells) => cells * 10,
    (ev) => -ev * 100,
  );
  expect(broken.path).toBe('M5,25ZM25,75Z');
});

test('stopAxis(spread) marks whole tenths from the hottest down', () => {
  const axis = stopAxis(
    { spreadEv: 0.62, toleranceEv: 0.3 },
    { hottestAt: 10, lowestAt: 110, tickSpacing: 25 },
  );
  expect(axis.ticks[0]).toEqual({ ev: 0, at: 10 });
  expect(axis.ticks.map(({ ev }) => ev)).toEqual([0, -0.2, -0.4, -0.6]);
  for (const { ev, at } of axis.ticks) expectWithin(axis.at(ev), at, 1e-9);
});

test('gradientLine(gradient) stays in the frame, short of its edge, and keeps its direction', () => {
  const gradient = { ...readingFixture().gradient, from: { x: -120, y: 40 }, to: { x: 720, y: 360 } };
  for (const edgeRoom of [0, 14]) {
    const line = gradientLine(gradient, { width: 600, height: 400, edgeRoom })!;
    expectWithin(line.from[0], edgeRoom, 1e-9);
    expectWithin(line.to[0], 600 - edgeRoom, 1e-9);
    expectWithin((line.to[1] - line.from[1]) / (line.to[0] - line.from[0]), 320 / 840, 1e-9);
    expectWithin(line.from[1], 40 + ((120 + edgeRoom) * 320) / 840, 1e-9);
  }
  const size = { width: 600, height: 400, edgeRoom: 0 };
  expect(gradientLine({ ...gradient, angleDeg: null }, size)).toBeNull();
  expect(gradientLine({ ...gradient, ev: 0.049 }, size)).toBeNull();
  expect(gradientLine({ ...gradient, plusMinusEv: gradient.ev }, size)).toBeNull();
});

test('spotReading(reading, cell) tells the cell’s own figures, warmth against the mean', () => {
  const reading = readingFixture({
    columns: 10,
    rows: 4,
    tint: (x) => [0.004 * (x - 0.5), 0.004 * (x - 0.5)],
  });
  const right = spotReading(reading, 9, 3);
  expect(right.ev).toBe(0);
  expectWithin(right.at.x, 0.95, 1e-12);
  expect(right.mired!).toBeGreaterThan(3);
  expect(spotReading(reading, -5, 99)).toMatchObject({ column: 0, row: 3 });
});

test('toleranceLevels(reading, tolerance) runs where each measure has its limit', () => {
  const reading = readingFixture({ columns: 4, rows: 2, ev: (x) => (x > 0.5 ? 0 : -1) });
  const base = { name: '', source: '', tintDeltaUv: 0.004, castDeltaUv: 0.005 };
  expect(toleranceLevels(reading, { ...base, measure: 'range', limit: 0.3 })).toEqual([-0.3]);
  expectWithin(
    toleranceLevels(reading, { ...base, measure: 'nine-point-min-max', limit: 0.75 })[0]!,
    -0.415,
    0.0005,
  );
  expectWithin(
    toleranceLevels(reading, { ...base, measure: 'min-over-mean', limit: 0.8 })[0]!,
    Math.log2(0.6),
    1e-9,
  );
  const band = toleranceLevels(reading, { ...base, measure: 'from-centre', limit: 0.1 });
  expectWithin(band[0]!, Math.log2(0.9), 1e-9);
  expectWithin(band[1]!, Math.log2(1.1), 1e-9);
});

test('cellsPath(cells) draws one rectangle a run, to the frame’s edge', () => {
  const chosen = [false, true, true, false, false, true];
  const path = cellsPath({ columns: 3, rows: 2 }, (i) => chosen[i]!, { width: 30, height: 20 });
  expect(path).toBe('M10,0H30V10H10ZM20,10H30V20H20Z');
  expect(cellsPath({ columns: 3, rows: 2 }, () => false, { width: 30, height: 20 })).toBe('');
});
