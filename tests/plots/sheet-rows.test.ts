import { expect, test } from 'vitest';
import type { ExposedTake } from '../../src/engine/compare/light-reaching.ts';
import { sheetRows, sorted } from '../../src/plots/sheet-rows.ts';
import { readingFixture } from './reading-fixture.ts';

function take(meanLevelEv: number | null, ev: number, isLowerBound = false): ExposedTake {
  const reading = readingFixture({ ev: (x) => -ev * Math.abs(x - 0.5) });
  const exposure = { seconds: 1 / 60, fNumber: 8, iso: 100, focalLengthMm: null, takenAt: null };
  return {
    reading: {
      ...reading,
      frame: { ...reading.frame, exposure },
      falloff: { ...reading.falloff, isLowerBound },
    },
    light: 'continuous',
    meanLevelEv,
  };
}

const takes = [take(-2, 1), take(-0.5, 0.4), take(null, 2), take(-3, 0.2), take(-0.1, 3, true)];

test('light is lost against the take with most of it, of those it is known of, or against the one chosen', () => {
  expect(sheetRows(takes, null).map(({ lostEv }) => lostEv)).toEqual([1.5, 0, 'no-level', 2.5, 'clipped']);
  expect(sheetRows(takes, 0).map(({ lostEv }) => lostEv)).toEqual([0, -1.5, 'no-level', 1, 'clipped']);
});

test('where it is known of no take, each says why', () => {
  expect(sheetRows([take(null, 1), take(null, 2)], null).map(({ lostEv }) => lostEv)).toEqual([
    'no-level',
    'no-level',
  ]);
  expect(sheetRows([], null)).toEqual([]);
});

test('rows are sorted both ways round, what is not known last', () => {
  const rows = sheetRows(takes, null);
  const order = (by: Parameters<typeof sorted>[1], isDown: boolean) =>
    sorted(rows, by, isDown).map(({ index }) => index);
  expect(order('take', true)).toEqual([4, 3, 2, 1, 0]);
  expect(order('spread', false)).toEqual([3, 1, 0, 2, 4]);
  expect(order('spread', true)).toEqual([4, 2, 0, 1, 3]);
  expect(order('lost', false)).toEqual([1, 0, 3, 2, 4]);
  expect(order('lost', true)).toEqual([3, 0, 1, 2, 4]);
  expect(order('hot-spot', true).at(-1)).toBe(4);
});
