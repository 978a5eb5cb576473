import { expect, test } from 'vitest';
import { stepsAlongLine } from '../../../src/engine/region/steps-along-line.ts';
import { expectWithin } from '../../expect-within.ts';

const line = (level: (k: number) => number) => Float64Array.from({ length: 40 }, (_, k) => level(k));

test('stepsAlongLine(levels, leastStops) finds a sharp step and measures it apart from the slope', () => {
  const steps = stepsAlongLine(
    line((k) => -0.1 * k - (k < 20 ? 0 : 1.5)),
    0.3,
  );
  expect(steps.map(({ bright, dark }) => [bright, dark])).toEqual([[19, 20]]);
  expectWithin(steps[0]!.stops, 1.5, 0.101); // a step lies between two cells, a slope's step of 0.1 apart
});

test('stepsAlongLine(levels, leastStops) finds a step over three cells where it is, bright side told from dark', () => {
  const steps = stepsAlongLine(
    line((k) => Math.min(0, Math.max(-2, (20 - k) * -0.5))),
    0.3,
  );
  expect(steps.length).toBeGreaterThan(0);
  for (const { bright, dark } of steps) {
    expect(bright).toBeGreaterThan(dark);
    expect(dark).toBeGreaterThanOrEqual(15);
    expect(bright).toBeLessThanOrEqual(21);
  }
  expectWithin(Math.max(...steps.map(({ stops }) => stops)), 2, 0.2);
});

test('stepsAlongLine(levels, leastStops) takes neither a slope, a kink nor a narrow hot spot for a step', () => {
  expect(
    stepsAlongLine(
      line((k) => -0.4 * k),
      0.3,
    ),
  ).toEqual([]);
  expect(
    stepsAlongLine(
      line((k) => -0.12 * Math.max(0, k - 20)),
      0.3,
    ),
  ).toEqual([]);
  const hotSpot = line((k) => 3 * Math.exp(-0.5 * ((k - 20) / 8) ** 2));
  expect(stepsAlongLine(hotSpot, 0.3)).toEqual([]);
});

test('stepsAlongLine(levels, leastStops) passes over cells without a measurement', () => {
  const steps = stepsAlongLine(
    line((k) => (k === 20 || k === 21 ? Number.NaN : k < 20 ? -4 : 0)),
    0.3,
  );
  expect(steps.map(({ bright, dark }) => [bright, dark])).toEqual([[22, 19]]);
});
