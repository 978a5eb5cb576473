import { expect, test } from 'vitest';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import { standsInRoom } from '../../../src/engine/lamps/within-room.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { drawsFrom } from '../../synthetic/random/draws.ts';
import { staysInRoom } from '../../synthetic/random/within-room.ts';
import { plainLamp } from '../../synthetic/studio/studio-set.ts';
import { lightOf, setOf } from './set-of.ts';

const ROOM = { leftMm: 800, rightMm: 500, upMm: 300, downMm: 200, reachMm: 1200 };
const KNOWN: Setup = { ...UNKNOWN_SETUP, frameWidthMm: 600, room: ROOM };

/** A light at so many mm; of another that stands well within the room nothing is to be said. */
const at = (xMm: number, yMm: number, distanceMm: number): LitSet =>
  setOf([lightOf({}), lightOf({ x: xMm / 600, y: yMm / 600, distance: distanceMm / 600 })]);

test('a light stands in the room up to 15 % beyond what was taped, to every side', () => {
  for (const [figure, mm] of [
    ['x', -800],
    ['x', 500],
    ['y', -300],
    ['y', 200],
    ['distance', 1200],
  ] as const) {
    const stands = (share: number) =>
      standsInRoom(
        at(
          figure === 'x' ? share * mm : 0,
          figure === 'y' ? share * mm : 0,
          figure === 'distance' ? share * mm : 600,
        ),
        KNOWN,
      );
    expect(stands(1.149), `${figure} ${mm}`).toBe(true);
    expect(stands(1.151), `${figure} ${mm}`).toBe(false);
  }
});

test('what was not entered bounds nothing', () => {
  const far = at(9000, -9000, 9000);
  expect(standsInRoom(far, KNOWN)).toBe(false);
  expect(standsInRoom(far, { ...KNOWN, room: UNKNOWN_SETUP.room })).toBe(true);
  expect(standsInRoom(far, { ...KNOWN, frameWidthMm: null })).toBe(true);
  expect(standsInRoom(far, { ...KNOWN, room: { ...UNKNOWN_SETUP.room, leftMm: 10 } })).toBe(true);
  expect(standsInRoom(setOf([]), KNOWN)).toBe(true);
});

test('says so of whatever light the studio’s own rule, written apart, lets stand', () => {
  const { between } = drawsFrom(seededRandom(9));
  let stays = 0;
  for (let i = 0; i < 500; i++) {
    const [xMm, yMm, distanceMm] = [between(-1000, 700), between(-400, 300), between(100, 1500)];
    const isInside = staysInRoom({ lamps: [plainLamp({ xMm, yMm, distanceMm })] }, ROOM);
    if (isInside) expect(standsInRoom(at(xMm, yMm, distanceMm), KNOWN)).toBe(true);
    stays += isInside ? 1 : 0;
  }
  expect(stays).toBeGreaterThan(150);
  expect(stays).toBeLessThan(400);
});
