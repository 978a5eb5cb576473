import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { type KeepingTrouble, ShootKeeper } from '../../src/takes/shoot-keeper.ts';
import type { HeldTake } from '../../src/takes/take.ts';
import { ShelfInMemory } from './shelf-in-memory.ts';

const take = (id: string, note = '') => ({ id, note }) as HeldTake;

function keeper(shelf = new ShelfInMemory()) {
  const troubles: (KeepingTrouble | null)[] = [];
  /** How many writes there were at each pause. */
  const pauses: number[] = [];
  let shoots = 0;
  let now = 1000;
  const its = new ShootKeeper({
    shelf,
    newId: () => `shoot-${++shoots}`,
    now: () => now++,
    pause: async () => {
      pauses.push(shelf.writes.length);
    },
    trouble: (trouble) => troubles.push(trouble),
  });
  const keep = async (...takes: HeldTake[]) => {
    its.keep(takes, DEFAULT_TOLERANCE);
    await its.settled();
  };
  return { its, keep, shelf, troubles, pauses };
}

test('ShootKeeper writes each take once, and again when it has changed', async () => {
  const { keep, its, shelf } = keeper();
  expect(its.shootId).toBeNull();
  const [a, b] = [take('a'), take('b')];
  await keep(a);
  await keep(a, b);
  await keep(take('a', 'farther'), b);
  expect(shelf.writes).toEqual([[0], [1], [0]]);
  expect(its.shootId).toBe('shoot-1');
  expect(await shelf.takesOf('shoot-1')).toEqual([take('a', 'farther'), b]);
  expect(await shelf.shoots()).toEqual([
    { id: 'shoot-1', schema: 1, beganAt: 1000, lastAt: 1003, takes: 2, tolerance: DEFAULT_TOLERANCE },
  ]);
});

test('ShootKeeper lets changes that come while it writes wait, and then writes them together', async () => {
  const { its, shelf } = keeper();
  const [a, b, c] = [take('a'), take('b'), take('c')];
  its.keep([a], DEFAULT_TOLERANCE);
  its.keep([a, b], DEFAULT_TOLERANCE);
  its.keep([a, b, c], DEFAULT_TOLERANCE);
  await its.settled();
  expect(shelf.writes).toEqual([[0], [1, 2]]);
});

test('ShootKeeper says that there is no room, goes on with the page, and keeps all of it once there is', async () => {
  const { keep, shelf, troubles } = keeper();
  const [a, b] = [take('a'), take('b')];
  await keep(a);
  shelf.trouble = 'QuotaExceededError';
  await keep(a, b);
  await keep(a, b, take('c'));
  shelf.trouble = null;
  await keep(a, b, take('c', 'noted'));
  expect(troubles).toEqual(['full', null]);
  expect((await shelf.takesOf('shoot-1')).map(({ id }) => id)).toEqual(['a', 'b', 'c']);
});

test('ShootKeeper says where there is no database at all', async () => {
  const { keep, shelf, troubles } = keeper();
  shelf.trouble = 'InvalidStateError';
  await keep(take('a'));
  expect(troubles).toEqual(['none']);
});

test('ShootKeeper goes on with a shoot from the shelf and adds to it', async () => {
  const first = keeper();
  await first.keep(take('a'), take('b'));
  const [shoot] = await first.shelf.shoots();
  const takes = await first.shelf.takesOf(shoot!.id);
  const second = keeper(first.shelf);
  second.its.goOn(shoot!, takes);
  await second.keep(...takes, take('c'));
  expect(second.its.shootId).toBe('shoot-1');
  expect(first.shelf.writes.at(-1)).toEqual([2]);
  expect((await first.shelf.shoots())[0]).toMatchObject({ beganAt: shoot!.beganAt, takes: 3 });
});

test('ShootKeeper writes a new take at once, and one that is only judged anew after a pause, all changes together', async () => {
  const { its, keep, shelf, pauses } = keeper();
  const b = take('b');
  await keep(take('a'), b);
  expect(pauses).toEqual([]);
  its.keep([take('a', '0.2 stop'), b], DEFAULT_TOLERANCE);
  its.keep([take('a', '0.1 stop'), b], DEFAULT_TOLERANCE);
  await its.settled();
  expect(pauses).toEqual([1]);
  expect(shelf.writes).toEqual([[0, 1], [0]]);
  expect((await shelf.takesOf('shoot-1'))[0]!.note).toBe('0.1 stop');
});
