import { expect, test } from 'vitest';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { EVEN_SET } from '../../synthetic/studio/even-set.ts';
import { plainLamp, type StudioSet } from '../../synthetic/studio/studio-set.ts';
import { setBack, slid, turned } from '../moves/some-moves.ts';
import { EXACT_HANDS } from './exact-hands.ts';
import { madeMoves } from './make-moves.ts';
import { stoppedByWalls } from './stopped-by-walls.ts';

const SET: StudioSet = {
  ...EVEN_SET,
  lamps: [plainLamp({ xMm: -300, distanceMm: 1000 }), plainLamp({ xMm: 300, distanceMm: 1000 })],
};
const NO_WALLS = UNKNOWN_SETUP.room;
const MOVES = [{ ...slid(1), rightMm: 400, downMm: 50 }, setBack(0, 1.5)];
const sent = madeMoves(SET, MOVES, EXACT_HANDS);

test('changes nothing where no wall stands in the way', () => {
  expect(stoppedByWalls(SET, sent, MOVES, NO_WALLS)).toEqual({ set: sent, shortMm: 0, done: MOVES });
});

test('a light that a wall stops keeps its direction, and is told as far as it went', () => {
  const { set, shortMm, done } = stoppedByWalls(SET, sent, MOVES, {
    ...NO_WALLS,
    rightMm: 600,
    reachMm: 1250,
  });
  expectWithin(shortMm, 250, 1e-9);
  expect(set.lamps[1]).toMatchObject({ xMm: 600, yMm: SET.lamps[1]!.yMm + 50 });
  expectWithin(set.lamps[1]!.aimXMm, SET.lamps[1]!.aimXMm + 300, 1e-9);
  expect(set.lamps[0]).toMatchObject({ xMm: -300, distanceMm: 1250, aimXMm: SET.lamps[0]!.aimXMm });
  expect(done[0]).toMatchObject({ kind: 'slide-lamp', rightMm: 300, downMm: 50 });
  expect(done[1]).toMatchObject({ kind: 'lamp-distance', ratio: 1.25 });
});

test('made anew, what is told leads to where the lights were stopped', () => {
  const room = { ...NO_WALLS, rightMm: 500, reachMm: 1400 };
  const moves = [...MOVES, turned(1)];
  const all = madeMoves(SET, moves, EXACT_HANDS);
  const { set, done } = stoppedByWalls(SET, all, moves, room);
  const anew = madeMoves(SET, done, EXACT_HANDS);
  anew.lamps.forEach((lamp, i) => {
    for (const figure of ['xMm', 'yMm', 'distanceMm', 'aimXMm', 'aimYMm'] as const)
      expectWithin(lamp[figure], set.lamps[i]![figure], 1e-6);
  });
});
