import { describe, expect, test } from 'vitest';
import {
  apertureChange,
  F_NUMBERS,
  ISO_SPEEDS,
  inThirds,
  isoChange,
  SHUTTER_TIMES,
  shutterChange,
} from '../../../src/engine/exposure/third-stops.ts';
import { expectWithin } from '../../expect-within.ts';

describe('the marks of thirds of a stop against the exact powers of 2', () => {
  test.each([
    ['times', SHUTTER_TIMES, (seconds: number) => Math.log2(seconds), 0.1],
    ['f-numbers', F_NUMBERS, (f: number) => -2 * Math.log2(f), 0.15],
    ['ISO speeds', ISO_SPEEDS, (iso: number) => Math.log2(iso / 100), 0.05],
  ] as const)('%s stray from them by the rounding of the mark alone', (name, series, stopsOf, most) => {
    const off = series.marks.map((mark, i) => stopsOf(mark) - (series.firstThird + i) / 3);
    console.log(`measured: ${name}: marks lie up to ${Math.max(...off.map(Math.abs)).toFixed(3)} stop off`);
    for (const stops of off) expectWithin(stops, 0, most);
    // no mark stands nearer to another's power than to its own
    for (const stops of off) expectWithin(3 * stops, 0, 0.499);
  });

  // third stops as printed in a table of apertures (standards read: kameraarkasi.org)
  test('f-numbers are those of a published table', () => {
    const printed = [
      1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10,
    ];
    const more = [11, 13, 14, 16, 18, 20, 22];
    expect(F_NUMBERS.marks.toReversed().slice(0, 28)).toEqual([...printed, ...more]);
  });
});

test.each([
  [shutterChange, 1 / 125, -1 / 3, 1 / 160],
  [shutterChange, 1 / 125, 1, 1 / 60],
  [shutterChange, 1 / 60, -2, 1 / 250],
  [shutterChange, 1, 2 / 3, 1.6],
  [apertureChange, 8, -1 / 3, 9],
  [apertureChange, 5.6, 1, 4],
  [apertureChange, 11, -2 / 3, 14],
  [isoChange, 100, 1 / 3, 125],
  [isoChange, 400, -1, 200],
])('%o takes %d by %d stops to %d', (change, from, stops, to) => {
  const changed = change(from, stops)!;
  expect(changed.to).toBe(to);
  expectWithin(changed.stops, stops, 1e-9);
});

test('a setting that is no mark is changed to the nearest mark, and what that really brings is told', () => {
  const changed = shutterChange(1 / 90, -1)!; // a half stop's mark
  expect([1 / 160, 1 / 200]).toContain(changed.to);
  expectWithin(changed.stops, -1, 1 / 6);
  expectWithin(changed.stops, Math.log2(90) - (changed.to === 1 / 160 ? 22 : 23) / 3, 1e-9);
});

test('beyond the marks there is no change to be told', () => {
  expect(shutterChange(1 / 8000, -1)).toBeNull();
  expect(shutterChange(20, 2)).toBeNull();
  expect(apertureChange(1.2, 1)).toBeNull();
  expect(isoChange(50, -1 / 3)).toBeNull();
});

test.each([
  [0.3, 1 / 3],
  [-0.16, 0],
  [-0.17, -1 / 3],
  [1.2, 4 / 3],
])('inThirds(%d) is %d', (stops, thirds) => expectWithin(inThirds(stops), thirds, 1e-12));
