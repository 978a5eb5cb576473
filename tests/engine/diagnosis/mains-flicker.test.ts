import { describe, expect, test } from 'vitest';
import {
  adviceOnFlicker,
  flickerAfter,
  flickerDepthEv,
  flickerLeft,
} from '../../../src/engine/diagnosis/mains-flicker.ts';
import { expectWithin } from '../../expect-within.ts';
import { halfUnitIn, numberIn, readTable } from '../../published/read-table.ts';

const rows = readTable('flicker-left');

test.each(rows)('flickerAfter($hertz, 1/$one_over_seconds) leaves $left', (row) => {
  const left = flickerAfter(numberIn(row, 'hertz'), 1 / numberIn(row, 'one_over_seconds'));
  expectWithin(left, numberIn(row, 'left'), halfUnitIn(row, 'left'));
});

describe('flickerLeft(hertz, seconds)', () => {
  test.each(rows)('at $hertz Hz and 1/$one_over_seconds s is at least the table’s $left', (row) => {
    const [hertz, seconds] = [numberIn(row, 'hertz'), 1 / numberIn(row, 'one_over_seconds')];
    const left = flickerLeft(hertz, seconds);
    expect(left).toBeGreaterThanOrEqual(numberIn(row, 'left') - halfUnitIn(row, 'left'));
    expect(left).toBeLessThan(numberIn(row, 'left') + 0.09);
  });

  test('is what the true time leaves where that is a fifteenth shorter: 1/60 for 1/64', () => {
    expectWithin(flickerLeft(100, 1 / 125), flickerAfter(100, 0.9375 / 125), 1e-12);
    expectWithin(flickerLeft(120, 1 / 120), flickerAfter(120, 0.9375 / 120), 1e-12);
  });
});

test.each([
  [0, 0],
  [1 / 3, 1],
  [0.6, 2],
])('flickerDepthEv(%f) is %f stops from dark to bright', (share, stops) => {
  expectWithin(flickerDepthEv(share), stops, 1e-12);
});

test('flickerDepthEv() of all of a light is without end', () => {
  expect(flickerDepthEv(1)).toBe(Number.POSITIVE_INFINITY);
});

describe('adviceOnFlicker(depthEv, seconds)', () => {
  test('names the mains only where the shutter time leaves too little at the other', () => {
    expect(adviceOnFlicker(0.5, 1 / 125)).toContain('fits 50 Hz');
    expect(adviceOnFlicker(0.35, 1 / 100)).toContain('fits 60 Hz');
    expect(adviceOnFlicker(0.05, 1 / 125)).toContain('which mains');
    expect(adviceOnFlicker(0.5, 1 / 1000)).toContain('which mains');
    expect(adviceOnFlicker(0.5, null)).toContain('which mains');
    expect(adviceOnFlicker(0.5, 0)).toContain('which mains');
    expect(adviceOnFlicker(0.5, 1 / 4)).toContain('no mains flicker');
  });
});
