import { expect, test } from 'vitest';
import { changedSet, NO_CHANGE, NOTHING_CHANGED } from '../../../src/engine/lamps/light-change.ts';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import { lightStarts } from '../../../src/engine/moves/light-starts.ts';
import { roomBounds } from '../../../src/engine/moves/room-bounds.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from '../lamps/set-of.ts';

const ROOM = { leftMm: 450, rightMm: 900, upMm: 400, downMm: 400, reachMm: 1200 };
const setup = { ...UNKNOWN_SETUP, frameWidthMm: 600, room: ROOM };
const boundsOf = (set: LitSet) => roomBounds(set, setup);
/** Where the lights stand at each start. */
const standing = (set: LitSet) =>
  lightStarts(set, boundsOf(set)).map((lights) => changedSet(set, { ...NOTHING_CHANGED, lights }).lights);

const ONE = setOf([lightOf({ x: 0.3, y: -0.2, aimX: 0.1 })]);
const TWO = setOf([lightOf({ x: -0.4, y: 0.2 }), lightOf({ x: 0.9, y: 0.1, aimY: 0.2, distance: 1.3 })]);

test('the search begins with everything as it is', () => {
  expect(lightStarts(ONE, boundsOf(ONE))[0]).toEqual([NO_CHANGE]);
  expect(lightStarts(TWO, boundsOf(TWO))[0]).toEqual([NO_CHANGE, NO_CHANGE]);
});

test('one light: before the middle as far back as it goes, and aside aimed over the middle', () => {
  const [, back, aside] = standing(ONE);
  const farthest = (0.95 * 1200) / 600;
  for (const [figure, value] of Object.entries({ x: 0, y: 0, aimX: 0, aimY: 0, distance: farthest }))
    expectWithin(back![0]![figure as 'x'], value, 1e-12);
  expect(aside![0]).toMatchObject({ x: 0.3, y: -0.2 });
  expect(aside![0]!.aimX).toBeLessThan(0); // past the middle, to the far side
});

test('two lights: either side at nearly half their distance, straight and crossed, within the room', () => {
  const [, straight, crossed] = standing(TWO);
  const distance = (0.95 * 1200) / 600;
  for (const stand of [straight!, crossed!]) {
    // the left side ends before that
    expectWithin(stand[0]!.x, (0.95 * -450) / 600, 1e-12);
    expectWithin(stand[1]!.x, 0.48 * distance, 1e-12);
    for (const light of stand) expectWithin(light.distance, distance, 1e-12);
  }
  for (const light of straight!) expectWithin(light.aimX, 0, 1e-12);
  expect(crossed![0]!.aimX).toBeGreaterThan(0);
  expect(crossed![1]!.aimX).toBeLessThan(0);
});

test('two lights are not sent farther back than helps', () => {
  const far = setOf([lightOf({ x: -1, distance: 4 }), lightOf({ x: 1, distance: 4 })]);
  const starts = lightStarts(far, roomBounds(far, UNKNOWN_SETUP)).slice(1);
  expect(starts).toHaveLength(2);
  for (const { ratio } of starts.flat()) expect(ratio).toBeLessThan(1);
});
