import { expect, test } from 'vitest';
import { spreadSpots } from '../../../src/engine/lamps/spread-spots.ts';
import { expectWithin } from '../../expect-within.ts';
import { measurementOf } from '../diagnosis/measurement-of.ts';

const ASPECT = 2 / 3;
const REGION = { left: 0.1, top: 0.25, right: 0.7, bottom: 0.75 };

test.each([
  ['the whole frame', { columns: 48, rows: 32 }, { left: 0, top: 0, right: 1, bottom: 1 }],
  ['a part of it', { columns: 48, rows: 32, region: REGION }, REGION],
  ['a narrow part', { columns: 12, rows: 96, region: REGION }, REGION],
] as const)('spreadSpots reach the centres of the outermost cells of %s, evenly', (_, shape, region) => {
  const { x, y } = spreadSpots(measurementOf({ ev: () => 0, ...shape }));
  const { columns, rows } = shape;
  const [width, height] = [region.right - region.left, region.bottom - region.top];
  const halfCell = [width / columns / 2, (ASPECT * height) / rows / 2] as const;
  expectWithin(Math.min(...x), region.left - 0.5 + halfCell[0], 1e-12);
  expectWithin(Math.max(...x), region.right - 0.5 - halfCell[0], 1e-12);
  expectWithin(Math.min(...y), (region.top - 0.5) * ASPECT + halfCell[1], 1e-12);
  expectWithin(Math.max(...y), (region.bottom - 0.5) * ASPECT - halfCell[1], 1e-12);
  const places = (values: Float64Array) =>
    [...new Set(Array.from(values, (value) => value.toFixed(9)))].map(Number).sort((a, b) => a - b);
  const [across, down] = [places(x), places(y)];
  expect(across.length).toBeGreaterThan(8); // corners and middles of sides count most, but not alone
  expect(across.length % 2).toBe(1);
  expect(x).toHaveLength(across.length * down.length);
  expect(new Set(Array.from(x, (right, i) => `${right.toFixed(9)} ${y[i]!.toFixed(9)}`)).size).toBe(x.length);
  for (const line of [across, down])
    line.slice(1).forEach((value, i) => {
      expectWithin(value - line[i]!, (line.at(-1)! - line[0]!) / (line.length - 1), 1e-8);
    });
});

test('spreadSpots of the flattest region still reach from its top to its bottom', () => {
  const { y } = spreadSpots(measurementOf({ ev: () => 0, columns: 96, rows: 4 }));
  expect(new Set(y).size).toBe(2);
});
