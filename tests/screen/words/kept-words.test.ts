import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { roomWords, shootWords } from '../../../src/screen/words/kept-words.ts';

const at = (day: number, hour: number, minute: number) => new Date(2026, 2, day, hour, minute).getTime();
const shoot = (takes: number, beganAt: number, lastAt: number) =>
  shootWords({ id: 's', schema: 1, order: [], takes, beganAt, lastAt, tolerance: DEFAULT_TOLERANCE });

test('shootWords(shoot) says how many takes there are and when they were read', () => {
  expect(shoot(7, at(1, 10, 12), at(1, 10, 40))).toBe('7 takes of 1 March 2026, 10:12 to 10:40');
  expect(shoot(1, at(1, 10, 12), at(1, 10, 12))).toBe('1 take of 1 March 2026, 10:12');
  expect(shoot(2, at(1, 23, 50), at(2, 0, 10))).toBe('2 takes of 1 March 2026, 23:50 to 2 March 2026, 00:10');
});

test('roomWords(takes) says how many more takes fit, as long as any does', () => {
  expect(roomWords(12)).toMatch(/room in this browser for about 12 more takes/);
  expect(roomWords(1)).toMatch(/for one more take\./);
  expect(roomWords(0)).toMatch(/^No further take fits/);
});
