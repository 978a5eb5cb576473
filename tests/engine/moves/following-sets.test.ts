import { expect, test } from 'vitest';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import { followingSets } from '../../../src/engine/moves/following-sets.ts';
import { lightOf, setOf } from '../lamps/set-of.ts';
import { SPOTS } from './spread-spots-of.ts';

/** Ten sets whose light is one and the same over the frame, then others. */
const BEST = setOf([lightOf({ x: 0.1, distance: 1.2 })]);
const alike = (count: number): LitSet[] =>
  Array.from({ length: count }, (_, i) => setOf([lightOf({ x: 0.1, distance: 1.2, strengthEv: i })]));
const otherwise = (x: number) => setOf([lightOf({ x, distance: 1.2 })]);

test('keeps the best first, and those that show the same, whatever their level', () => {
  const sets = [BEST, ...alike(15)];
  expect(followingSets(sets, SPOTS)).toEqual(sets);
});

test('drops sets that do not show the frame, in whatever place they stand', () => {
  const [near, off] = [otherwise(0.105), otherwise(0.6)];
  const sets = [BEST, off, ...alike(9), near, off];
  const kept = followingSets(sets, SPOTS);
  expect(kept).toEqual([BEST, ...alike(9), near]);
});

test('keeps ten at least, those that depart least', () => {
  const sets = [BEST, ...Array.from({ length: 19 }, (_, i) => otherwise(1 - 0.04 * i))];
  const kept = followingSets(sets, SPOTS);
  expect(kept).toHaveLength(10);
  expect(kept[0]).toBe(BEST);
  // from x = 0.64 on they are nearer to the best's 0.1, in the order in which they came
  expect(kept.slice(1)).toEqual(sets.slice(-9));
  expect(followingSets(sets.slice(0, 4), SPOTS)).toEqual(sets.slice(0, 4));
});
