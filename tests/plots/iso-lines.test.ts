import { expect, test } from 'vitest';
import type { CellMap } from '../../src/plots/cell-map.ts';
import { isoLines } from '../../src/plots/iso-lines.ts';
import { isClosed } from '../../src/plots/plot-line.ts';

function mapOf(columns: number, rows: number, value: (x: number, y: number) => number): CellMap {
  return {
    columns,
    rows,
    values: Float64Array.from({ length: columns * rows }, (_, i) =>
      value((i % columns) + 0.5, Math.floor(i / columns) + 0.5),
    ),
  };
}

test('isoLines(plane) is one straight line from edge to edge, within 0.1 cell of its place', () => {
  const plane = (x: number, y: number) => -0.013 * x - 0.009 * y;
  const lines = isoLines(mapOf(60, 40, plane), -0.5);
  expect(lines).toHaveLength(1);
  let worst = 0;
  for (const [x, y] of lines[0]!)
    worst = Math.max(worst, Math.abs(plane(x, y) + 0.5) / Math.hypot(0.013, 0.009));
  console.log(`measured: a plane's contour lies within ${worst.toExponential(1)} cell of its place`);
  expect(worst).toBeLessThan(0.1);
  for (const [x, y] of [lines[0]![0]!, lines[0]!.at(-1)!])
    expect(Math.min(x, y, 60 - x, 40 - y)).toBeLessThan(1e-9);
});

test('isoLines(map) draws nothing along the frame’s edge', () => {
  const lines = isoLines(
    mapOf(20, 20, (x) => x),
    7.25,
  );
  for (const line of lines)
    for (let i = 1; i < line.length; i++) {
      const onEdge = (k: 0 | 1, at: number) => line[i - 1]![k] === at && line[i]![k] === at;
      expect(onEdge(0, 0) || onEdge(0, 20) || onEdge(1, 0) || onEdge(1, 20)).toBe(false);
    }
  expect(lines).toHaveLength(1);
});

test('isoLines(map above the level everywhere) has no lines', () => {
  expect(
    isoLines(
      mapOf(12, 8, () => 1),
      0.5,
    ),
  ).toEqual([]);
});

test('isoLines(map) draws nothing round a hole', () => {
  const hole = (x: number, y: number) => (Math.abs(x - 10) < 3 && Math.abs(y - 10) < 3 ? Number.NaN : 1);
  expect(isoLines(mapOf(20, 20, hole), 0.5)).toEqual([]);
});

test('isoLines(map) breaks a line where it meets a hole', () => {
  const lines = isoLines(
    mapOf(20, 21, (x, y) => (Math.abs(y - 10.5) < 3 ? Number.NaN : x)),
    10.2,
  );
  expect(lines).toHaveLength(2);
  for (const line of lines) for (const [x] of line) expect(Math.abs(x - 10.2)).toBeLessThan(1e-9);
});

test('isoLines(peak) is one closed ring at the right radius', () => {
  const lines = isoLines(
    mapOf(40, 40, (x, y) => -(((x - 20) / 20) ** 2) - ((y - 20) / 20) ** 2),
    -0.25,
  );
  expect(lines).toHaveLength(1);
  expect(isClosed(lines[0]!)).toBe(true);
  for (const [x, y] of lines[0]!) expect(Math.abs(Math.hypot(x - 20, y - 20) - 10)).toBeLessThan(0.1);
});

test('isoLines(peak cut by the frame) ends at the frame and stays one line', () => {
  const lines = isoLines(
    mapOf(40, 40, (x, y) => -Math.hypot(x, y - 20)),
    -12,
  );
  expect(lines).toHaveLength(1);
  expect(isClosed(lines[0]!)).toBe(false);
});
