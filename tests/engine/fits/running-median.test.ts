import { expect, test } from 'vitest';
import { runningMedian } from '../../../src/engine/fits/running-median.ts';

function mapOf(columns: number, rows: number, value: (column: number, row: number) => number): Float64Array {
  return Float64Array.from({ length: columns * rows }, (_, at) =>
    value(at % columns, Math.floor(at / columns)),
  );
}

test('runningMedian(map, reach 3) takes out specks and creases up to three cells wide, also along edges', () => {
  for (const struck of [
    (c: number, r: number) => c >= 9 && c < 12 && r >= 5 && r < 8,
    (c: number, r: number) => c < 3 && r < 3,
    (c: number) => c >= 15 && c < 18,
    (c: number, r: number) => Math.abs(c - r) < 2,
  ]) {
    const medians = runningMedian(
      mapOf(24, 16, (c, r) => (struck(c, r) ? -1 : 0.5)),
      24,
      16,
      3,
    );
    expect(new Set(medians)).toEqual(new Set([0.5]));
  }
});

test('runningMedian(map) keeps a plane as it is away from the edges', () => {
  const map = mapOf(20, 14, (c, r) => 2 * c - r);
  const medians = runningMedian(map, 20, 14, 3);
  for (let row = 3; row < 11; row++) {
    for (let column = 3; column < 17; column++) expect(medians[row * 20 + column]).toBe(2 * column - row);
  }
});

test('runningMedian(map) passes over NaN, and is NaN where a window holds nothing else', () => {
  const medians = runningMedian(
    mapOf(9, 9, (c) => (c === 4 ? Number.NaN : 7)),
    9,
    9,
    1,
  );
  expect(new Set(medians)).toEqual(new Set([7]));
  const holed = runningMedian(
    mapOf(9, 9, (c) => (c > 3 ? Number.NaN : 7)),
    9,
    9,
    1,
  );
  expect(holed[8]).toBeNaN();
});

test('runningMedian(map) copes with maps smaller than its window', () => {
  expect([...runningMedian(Float64Array.of(3, 1, 2), 3, 1, 3)]).toEqual([2, 2, 2]);
  expect([...runningMedian(Float64Array.of(5), 1, 1, 3)]).toEqual([5]);
});
