import { describe, expect, test } from 'vitest';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import { frameWidthMm, roomBounds, roomBoundsOfAll } from '../../../src/engine/moves/room-bounds.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from '../lamps/set-of.ts';

const NO_ROOM = UNKNOWN_SETUP.room;
/** A light 0.1 left of the middle and 0.2 under it, and a room that lets it go farther every way. */
const SET = setOf([lightOf({ x: -0.1, y: 0.2 })]);
const ROOM = { leftMm: 600, rightMm: 300, upMm: 240, downMm: 180, reachMm: 1500 };
const boundsOf = (setup: Partial<Setup>, set = SET) => roomBounds(set, { ...UNKNOWN_SETUP, ...setup })[0]!;

/** Lengths are taped to within 5 %, so a light is sent so much less far. */
const widths = (mm: number) => (0.95 * mm) / 600;

describe('roomBounds(set, setup)', () => {
  test.each([
    ['left', 'leftMm', -1],
    ['right', 'rightMm', 1],
    ['up', 'upMm', -1],
    ['down', 'downMm', 1],
    ['farthest', 'reachMm', 1],
  ] as const)(
    '%s goes by what was entered, and by what is usual where it was not',
    (bound, entered, sign) => {
      const all = boundsOf({ frameWidthMm: 600, room: ROOM });
      expectWithin(all[bound], sign * widths(ROOM[entered]), 1e-12);
      const without = boundsOf({ frameWidthMm: 600, room: { ...ROOM, [entered]: null } });
      const unknown = boundsOf({});
      expect(without[bound]).toBe(unknown[bound]);
      expect(without[bound]).not.toBe(all[bound]);
      for (const other of ['left', 'right', 'up', 'down', 'nearest', 'farthest'] as const)
        if (other !== bound) expect(without[other]).toBe(all[other]);
    },
  );

  test('counts for nothing of the room while it is not known how long a frame width is', () => {
    expect(boundsOf({ room: ROOM })).toEqual(boundsOf({ room: NO_ROOM }));
  });

  test('takes the width of the frame from an entered distance where it was not entered itself', () => {
    // the light stands 1 frame width off, and that is 600 mm
    const inferred = boundsOf({ lampDistanceMm: [600], room: ROOM });
    const entered = boundsOf({ frameWidthMm: 600, room: ROOM });
    expect(inferred).toEqual(entered);
    expect(frameWidthMm(SET, { ...UNKNOWN_SETUP, lampDistanceMm: [600] })).toBe(600);
    expect(frameWidthMm(SET, { ...UNKNOWN_SETUP, frameWidthMm: 500, lampDistanceMm: [600] })).toBe(500);
    expect(frameWidthMm(SET, { ...UNKNOWN_SETUP, lampDistanceMm: [null, 600] })).toBeNull();
    expect(frameWidthMm(setOf([]), { ...UNKNOWN_SETUP, lampDistanceMm: [600] })).toBeNull();
  });

  test('a light that stands beyond what was said of the room may stay', () => {
    const narrow = { leftMm: 30, rightMm: 30, upMm: 30, downMm: 30, reachMm: 300 };
    const { left, right, up, down, nearest, farthest } = boundsOf({ frameWidthMm: 600, room: narrow });
    expect({ left, down, farthest }).toEqual({ left: -0.1, down: 0.2, farthest: 1 });
    expectWithin(right, widths(30), 1e-12);
    expectWithin(up, -widths(30), 1e-12);
    expect(nearest).toBeLessThanOrEqual(1);
  });

  test('no light is sent closer than its own width, nor much closer than it stands; one that stands closer may stay', () => {
    const nearestOf = (distance: number, face: Parameters<typeof lightOf>[0]) =>
      boundsOf({}, setOf([lightOf({ distance, ...face })])).nearest;
    expectWithin(nearestOf(1, { face: { kind: 'disc', radius: 0.4 } }), 0.8, 1e-12);
    expectWithin(nearestOf(1, { face: { kind: 'rectangle', width: 0.3, height: 0.9 } }), 0.9, 1e-12);
    expectWithin(nearestOf(1, { face: { kind: 'disc', radius: 0.1 } }), 0.6, 1e-12);
    expectWithin(nearestOf(0.5, { face: { kind: 'disc', radius: 0.4 } }), 0.5, 1e-12);
  });

  test('each of two lights has its own', () => {
    const two = setOf([lightOf({ x: -1, distance: 1.5 }), lightOf({ x: 2 })]);
    const [first, second] = roomBounds(two, { ...UNKNOWN_SETUP, frameWidthMm: 600, room: ROOM });
    expect([first!.left, second!.right]).toEqual([-1, 2]);
    expectWithin(second!.left, -widths(600), 1e-12);
  });
});

describe('roomBoundsOfAll(sets, setup)', () => {
  const setup = { ...UNKNOWN_SETUP, frameWidthMm: 600, room: ROOM };
  const OFF = [0, ...Array.from({ length: 19 }, (_, i) => (i - 9) / 60)];
  /** The best, and sets in which the first light may stand as well; beside another, or alone. */
  const setsOf = (others: readonly LitSet['lights'][number][]) =>
    OFF.map((off) => setOf([lightOf({ x: -0.1 + off, y: 0.2 - off / 2, distance: 1 - off }), ...others]));

  test('are the best set’s own where it is the only one', () => {
    const [alone] = roomBoundsOfAll([SET], setup);
    const [own] = roomBounds(SET, setup);
    for (const bound of ['left', 'right', 'up', 'down', 'nearest', 'farthest', 'aside'] as const)
      expectWithin(alone![bound], own![bound], 1e-12);
  });

  test.each([
    ['one of two lights in the room in 85 of 100 likely sets', [lightOf({ x: 0.2 })], 0.85],
    ['a lone light in the room in half of them', [], 0.5],
  ])('keep %s, however far it is sent', (_, others, least) => {
    const sets = setsOf(others);
    const [all] = roomBoundsOfAll(sets, setup);
    const best = sets[0]!.lights[0]!;
    const inside = (holds: (light: LitSet['lights'][number]) => boolean) =>
      sets.filter(({ lights }) => holds(lights[0]!)).length / sets.length;
    const shares = [
      inside(({ x }) => x + all!.right - best.x <= widths(ROOM.rightMm) + 1e-9),
      inside(({ x }) => x + all!.left - best.x >= -widths(ROOM.leftMm) - 1e-9),
      inside(({ y }) => y + all!.up - best.y >= -widths(ROOM.upMm) - 1e-9),
      inside(({ y }) => y + all!.down - best.y <= widths(ROOM.downMm) + 1e-9),
      inside(({ distance }) => (distance * all!.farthest) / best.distance <= widths(ROOM.reachMm) + 1e-9),
    ];
    for (const share of shares) {
      expect(share).toBeGreaterThanOrEqual(least);
      expect(share).toBeLessThan(least + 0.15); // and go as far as that allows
    }
  });

  test('end where a light was stopped before', () => {
    const free = { left: 9, right: 9, up: 9, down: 9, farther: 9 };
    const [own] = roomBoundsOfAll([SET], setup);
    expect(roomBoundsOfAll([SET], setup, [free])).toEqual([own]);
    const { x, y, distance } = SET.lights[0]!;
    const [met] = roomBoundsOfAll([SET], setup, [{ left: 0, right: 0.1, up: 0.05, down: 0, farther: 1 }]);
    expect(met).toMatchObject({ left: x, down: y, farthest: distance, nearest: own!.nearest });
    expectWithin(met!.right, x + 0.1, 1e-12);
    expectWithin(met!.up, y - 0.05, 1e-12);
  });
});
