import { expect, test } from 'vitest';
import { leftOverPicture } from '../../src/plots/left-over-picture.ts';
import { reportOfLight } from '../engine/profile/report-of-light.ts';
import { expectWithin } from '../expect-within.ts';

const slope = (x: number, y: number) => [-1 - x, -1 - x, -1 - x - 0.1 * y] as const;

test('leftOverPicture(report) is one middle grey where the surface is the light, lighter above it, darker below', () => {
  const { grid, surfaces } = reportOfLight(slope);
  const cell = (column: number, row: number) => row * grid.columns + column;
  const change = (at: number, ev: number) => {
    for (const channel of Object.values(grid.light)) channel[at] *= 2 ** ev;
  };
  change(cell(10, 10), 0.1);
  change(cell(20, 10), -0.1);
  change(cell(30, 10), Number.NaN);
  const { rgba, usualEv, mostEv, reachEv } = leftOverPicture({ grid, chosen: surfaces[0]! });
  const grey = (column: number, row: number) => rgba[cell(column, row) * 4]!;
  const middle = grey(50, 50);
  expect(grey(10, 10)).toBeGreaterThan(middle + 60);
  expect(grey(20, 10)).toBeLessThan(middle - 60);
  expect(rgba[cell(30, 10) * 4 + 3]).toBe(0);
  expect(rgba[cell(31, 10) * 4 + 3]).toBe(255);
  expectWithin(usualEv, 0, 1e-6);
  expectWithin(mostEv, 0.1, 1e-6);
  expect(reachEv).toBe(0.02);
});

test('leftOverPicture(report) has a scale that 95 of 100 cells lie within', () => {
  const { grid, surfaces } = reportOfLight(slope, { noiseEv: 0.04 });
  const { usualEv, reachEv, mostEv } = leftOverPicture({ grid, chosen: surfaces[0]! });
  expect(usualEv).toBeGreaterThan(0.03);
  expect(reachEv).toBeGreaterThanOrEqual(usualEv);
  expect(mostEv).toBeGreaterThan(usualEv);
});
