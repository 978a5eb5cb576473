import { expect, test } from 'vitest';
import { WHOLE_FRAME } from '../../src/engine/reading.ts';
import { cellAtPlace, mapLayout, placeInDrawing } from '../../src/plots/map-layout.ts';
import { handlePlace, REGION_HANDLES, regionWithHandleAt } from '../../src/plots/map-region.ts';
import { expectWithin } from '../expect-within.ts';
import { readingFixture } from './reading-fixture.ts';

const PART = { left: 0.2, top: 0.1, right: 0.8, bottom: 0.6 };

test('REGION_HANDLES are four corners and four sides, each in its own place', () => {
  const places = REGION_HANDLES.map((handle) => handlePlace(PART, handle));
  expect(new Set(places.map(({ x, y }) => `${x} ${y}`)).size).toBe(8);
  expect(REGION_HANDLES.filter(({ across, down }) => across !== null && down !== null)).toHaveLength(4);
});

test('regionWithHandleAt(side) moves that edge alone, a corner two', () => {
  const left = REGION_HANDLES.find(({ across, down }) => across === 'left' && down === null)!;
  expect(regionWithHandleAt(PART, left, { x: 0.3, y: 0.9 })).toEqual({ ...PART, left: 0.3 });
  const corner = REGION_HANDLES.find(({ across, down }) => across === 'right' && down === 'bottom')!;
  expect(regionWithHandleAt(PART, corner, { x: 0.9, y: 0.7 })).toEqual({ ...PART, right: 0.9, bottom: 0.7 });
});

test('regionWithHandleAt(anywhere) stays inside the frame and never turns inside out', () => {
  for (const handle of REGION_HANDLES)
    for (const [x, y] of [
      [-3, -3],
      [4, 4],
      [-3, 4],
      [0.5, 0.35],
    ] as const) {
      const { left, top, right, bottom } = regionWithHandleAt(PART, handle, { x, y });
      expect(Math.min(left, top)).toBeGreaterThanOrEqual(0);
      expect(Math.max(right, bottom)).toBeLessThanOrEqual(1);
      expect(Math.min(right - left, bottom - top)).toBeGreaterThan(0.0499);
    }
});

test('mapLayout(reading) shows the whole frame in its shape, with the region in its place', () => {
  const room = { width: 800, height: 1000 };
  const whole = mapLayout(readingFixture(), room);
  expect([whole.left, whole.top, whole.width, whole.height]).toEqual([
    0,
    0,
    whole.frameWidth,
    whole.frameHeight,
  ]);
  expectWithin(whole.frameWidth / whole.frameHeight, 1.5, 0.005);
  const part = mapLayout(readingFixture({}, { region: PART }), room);
  expect([part.frameWidth, part.frameHeight]).toEqual([whole.frameWidth, whole.frameHeight]);
  expectWithin(part.left, 0.2 * part.frameWidth, 0.5);
  expectWithin(part.top, 0.1 * part.frameHeight, 0.5);
  expectWithin(part.width, 0.6 * part.frameWidth, 1);
  expect(part.frameWidth + part.sectionDepth).toBeLessThan(room.width);
});

test('cellAtPlace and placeInDrawing agree, in a part of the frame too', () => {
  for (const region of [WHOLE_FRAME, PART]) {
    const reading = readingFixture({}, { region });
    const layout = mapLayout(reading, { width: 700, height: 700 });
    const { columns, rows } = reading.grid;
    const at = {
      x: region.left + ((7 + 0.5) / columns) * (region.right - region.left),
      y: region.top + ((5 + 0.5) / rows) * (region.bottom - region.top),
    };
    expect(cellAtPlace(reading, layout, placeInDrawing(reading, layout, at))).toEqual({ column: 7, row: 5 });
  }
});
