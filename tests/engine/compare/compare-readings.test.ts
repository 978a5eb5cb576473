import { expect, test } from 'vitest';
import { type Comparison, compareReadings } from '../../../src/engine/compare/compare-readings.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { Reading } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const bowl = (depth: number) => (x: number, y: number) => -depth * ((x - 0.5) ** 2 + (y - 0.5) ** 2);

function compared(now: Reading, before: Reading): Comparison {
  const comparison = compareReadings(now, before);
  if (typeof comparison === 'string') throw new Error(comparison);
  return comparison;
}

test('a take against itself changed nothing', () => {
  const reading = readingFixture({ ev: bowl(2) });
  const { evMap, rmsEv, spread, tint, cast, rmsDeltaUv, columns, rows } = compared(reading, reading);
  expect([columns, rows]).toEqual([48, 32]);
  expect(evMap.every((ev) => ev === 0)).toBe(true);
  expect([rmsEv.value, spread!.value, tint.value, cast.value, rmsDeltaUv]).toEqual([0, 0, 0, 0, 0]);
});

test('what changed is told place by place, and what changed in common is not', () => {
  const before = readingFixture({ ev: bowl(2) });
  const now = readingFixture({ ev: (x, y) => bowl(2)(x, y) + 0.5 * x - 3 });
  const { evMap, rmsEv } = compared(now, before);
  for (const column of [0, 20, 47])
    expectWithin(evMap[5 * 48 + column]!, 0.5 * ((column + 0.5) / 48 - 0.5), 1e-12);
  expectWithin(rmsEv.value, 0.5 / Math.sqrt(12), 1e-3); // of a ramp over its mean
  expectWithin(compared(before, now).evMap[0]!, -evMap[0]!, 1e-12);
});

test('each ± is the root of the sum of both squares', () => {
  const one = readingFixture({ ev: bowl(2) });
  const other = readingFixture(
    { ev: bowl(1) },
    { tint: { ...one.tint, spreadDeltaUv: 0.005, plusMinusDeltaUv: 0.0005 } },
  );
  const { spread, tint, cast, cellPlusMinusEv } = compared(other, one);
  expectWithin(spread!.plusMinus, 0.02 * Math.SQRT2, 1e-12);
  expectWithin(spread!.value, other.falloff.spreadEv - one.falloff.spreadEv, 1e-12);
  expectWithin(tint.value, 0.003, 1e-12);
  expectWithin(tint.plusMinus, Math.hypot(0.0002, 0.0005), 1e-12);
  expectWithin(cast.plusMinus, 0.0003 * Math.SQRT2, 1e-12);
  expectWithin(cellPlusMinusEv, 0.01 * Math.SQRT2, 1e-12);
});

test('other grids and regions are compared on their common part, by place across the frame', () => {
  const field = (x: number, y: number) => 0.8 * x - 0.3 * y;
  const part = { left: 0.25, top: 0.1, right: 1, bottom: 0.9 };
  const whole = readingFixture({ columns: 96, rows: 64, ev: field });
  // cells of the part hold the same field at their own places, and a ramp more
  const inPart = readingFixture(
    {
      columns: 40,
      rows: 30,
      ev: (x, y) => field(0.25 + 0.75 * x, 0.1 + 0.8 * y) + 0.2 * x,
    },
    { region: part },
  );
  const { region, columns, rows, evMap } = compared(inPart, whole);
  expect(region).toEqual(part);
  expect([columns, rows]).toEqual([40, 30]);
  for (const column of [0, 17, 39])
    expectWithin(evMap[7 * 40 + column]!, 0.2 * ((column + 0.5) / 40 - 0.5), 1e-9);
});

test('the tint of each place is told without the cast that moved', () => {
  const before = readingFixture({ tint: () => [0, 0] });
  const now = readingFixture({ tint: (x) => [0.01 + 0.004 * x, -0.02] });
  const { deltaUPrimeMap, deltaVPrimeMap } = compared(now, before);
  expectWithin(deltaUPrimeMap[0]!, 0.004 * (0.5 / 48 - 0.5), 1e-12);
  expectWithin(deltaVPrimeMap[100]!, 0, 1e-12);
});

test('what was not measured in either stays unmeasured', () => {
  const before = readingFixture({ ev: (x, y) => (x < 0.1 ? null : bowl(1)(x, y)) });
  const { evMap, rmsEv } = compared(readingFixture({ ev: bowl(1) }), before);
  expect(evMap[0]).toBeNaN();
  expect(evMap.at(-1)).not.toBeNaN();
  expect(rmsEv.value).toBeLessThan(1e-12);
});

test('what clipping hides has no change of spread', () => {
  const reading = readingFixture({ ev: bowl(1) });
  const clipped = { ...reading, falloff: { ...reading.falloff, isLowerBound: true } };
  expect(compared(reading, clipped).spread).toBeNull();
  expect(compared(clipped, reading).spread).toBeNull();
});

test('frames of another shape, turned ones and parts without a common one are refused by reason', () => {
  const reading = readingFixture();
  const shaped = (widthPx: number, heightPx: number) =>
    readingFixture({}, { frame: { ...reading.frame, widthPx, heightPx } });
  expect(compareReadings(shaped(800, 1200), reading)).toBe('turned');
  expect(compareReadings(shaped(1200, 900), reading)).toBe('other-shape');
  expect(typeof compareReadings(shaped(6022, 4024), reading)).toBe('object');
  const at = (left: number, right: number) =>
    readingFixture({}, { region: { left, top: 0, right, bottom: 1 } });
  expect(compareReadings(at(0, 0.4), at(0.5, 1))).toBe('nothing-in-common');
  expect(compareReadings(at(0, 0.52), at(0.5, 1))).toBe('nothing-in-common');
  const empty = readingFixture({ ev: (x) => (x > 0.99 ? 0 : null) });
  const other = readingFixture({ ev: (x) => (x < 0.02 ? 0 : null) });
  expect(compareReadings(empty, other)).toBe('nothing-in-common');
});

test('the ± of the rms holds the true one, whatever changed', () => {
  const random = seededRandom(8);
  const cellEv = 0.02; // ± of one cell
  let held = 0;
  const frames = 200;
  for (let i = 0; i < frames; i++) {
    const ramp = 0.2 * random.uniform() ** 3;
    const noisy = (slope: number) => {
      const reading = readingFixture({
        columns: 24,
        rows: 16,
        ev: (x) => slope * x + (random.normal() * cellEv) / 1.96,
      });
      return { ...reading, falloff: { ...reading.falloff, cellPlusMinusEv: cellEv } };
    };
    const { rmsEv } = compared(noisy(ramp), noisy(0));
    if (Math.abs(rmsEv.value - ramp / Math.sqrt(12)) <= rmsEv.plusMinus) held++;
  }
  console.log(`measured: the ± of the rms difference held the truth in ${held} of ${frames}`);
  expect(held).toBeGreaterThanOrEqual(0.95 * frames);
});
