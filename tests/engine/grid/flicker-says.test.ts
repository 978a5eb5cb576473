import { expect, test } from 'vitest';
import { flickerSays } from '../../../src/engine/grid/flicker-says.ts';
import { gridOfLight } from '../fits/grid-of-light.ts';

const grid = (stops: number) => gridOfLight(() => [stops, stops, stops], { columns: 12, rows: 8 });

test('flickerSays(grids, flickerEv) says what changed between averaged frames, and nothing of one', () => {
  expect(flickerSays([grid(-1)], 0)).toBe('');
  expect(flickerSays([grid(-1), grid(-1)], 0)).toBe(
    '2 frames are averaged: their level did not change, and the light fell alike, but for noise.',
  );
  expect(flickerSays([grid(-1), grid(-1.03), grid(-0.98)], 0.0123)).toBe(
    '3 frames are averaged: their level changed by 0.05 stop, and the light fell differently from one to the next; that flicker puts 0.012 stop into the ±.',
  );
});
