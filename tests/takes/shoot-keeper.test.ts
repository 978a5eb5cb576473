import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { type KeepingTrouble, ShootKeeper } from '../../src/takes/shoot-keeper.ts';
import type { HeldTake } from '../../src/takes/take.ts';
import { heldTake } from './held-take.ts';
import { ShelfInMemory } from './shelf-in-memory.ts';

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
    its.keep({ takes, tolerance: DEFAULT_TOLERANCE });
    await its.settled();
  };
  const notes = async () => {
    const [shoot] = await shelf.shoots();
    return (await shelf.takesOf(shoot!)).map(({ id, note }) => `${id} ${note}`.trim());
  };
  return { its, keep, shelf, troubles, pauses, notes };
}

const [A, B, C] = [heldTake('a'), heldTake('b'), heldTake('c')];
const noted = (take: HeldTake, note: string) => ({ ...take, note });
/** The same take with another report. */
const anew = (take: HeldTake, note = '') => ({ ...take, report: { ...take.report! }, note });

test('ShootKeeper writes each take once, its small facts again when they have changed, its report when that has', async () => {
  const { keep, its, shelf, notes } = keeper();
  expect(its.shootId).toBeNull();
  await keep(A);
  await keep(A, B);
  const a = noted(A, 'farther');
  await keep(a, B);
  await keep(a, anew(B));
  expect(shelf.writes).toEqual([['a*'], ['b*'], ['a'], ['b*']]);
  expect(its.shootId).toBe('shoot-1');
  expect(await notes()).toEqual(['a farther', 'b']);
  const facts = { id: 'shoot-1', schema: 2, beganAt: 1000, lastAt: 1004, takes: 2, order: ['a', 'b'] };
  expect(await shelf.shoots()).toEqual([{ ...facts, tolerance: DEFAULT_TOLERANCE }]);
});

test('ShootKeeper lets changes that come while it writes wait, and then writes them together', async () => {
  const { its, shelf } = keeper();
  its.keep({ takes: [A], tolerance: DEFAULT_TOLERANCE });
  its.keep({ takes: [A, B], tolerance: DEFAULT_TOLERANCE });
  its.keep({ takes: [A, B, C], tolerance: DEFAULT_TOLERANCE });
  await its.settled();
  expect(shelf.writes).toEqual([['a*'], ['b*', 'c*']]);
});

test('ShootKeeper says that there is no room, goes on with the page, and keeps all of it once there is', async () => {
  const { keep, shelf, troubles, notes, its } = keeper();
  await keep(A);
  shelf.trouble = 'QuotaExceededError';
  await keep(A, B);
  await keep(A, B, C);
  const takes = [A, B, C];
  expect(its.lighter(takes, new Set()).map(({ report }) => report === null)).toEqual([true, false, false]);
  shelf.trouble = null;
  await keep(A, B, noted(C, 'noted'));
  expect(troubles).toEqual(['full', null]);
  expect(await notes()).toEqual(['a', 'b', 'c noted']);
});

test('ShootKeeper says where there is no database at all, and lets nothing go', async () => {
  const { keep, shelf, troubles, its } = keeper();
  shelf.trouble = 'InvalidStateError';
  const takes = [A, B];
  await keep(...takes);
  expect(troubles).toEqual(['none']);
  expect(its.lighter(takes, new Set())).toBe(takes);
});

test('ShootKeeper goes on with a shoot from the shelf and adds to it', async () => {
  const first = keeper();
  await first.keep(A, B);
  const [shoot] = await first.shelf.shoots();
  const takes = await first.shelf.takesOf(shoot!);
  const second = keeper(first.shelf);
  second.its.goOn(shoot!, takes);
  await second.keep(...takes, C);
  expect(second.its.shootId).toBe('shoot-1');
  expect(first.shelf.writes.at(-1)).toEqual(['c*']);
  expect((await first.shelf.shoots())[0]).toMatchObject({ beganAt: shoot!.beganAt, takes: 3 });
});

test('ShootKeeper writes a new take at once, and one that is only judged anew after a pause, all changes together', async () => {
  const { its, keep, shelf, pauses, notes } = keeper();
  await keep(A, B);
  expect(pauses).toEqual([]);
  its.keep({ takes: [anew(A, '0.2 stop'), B], tolerance: DEFAULT_TOLERANCE });
  its.keep({ takes: [anew(A, '0.1 stop'), B], tolerance: DEFAULT_TOLERANCE });
  await its.settled();
  expect(pauses).toEqual([1]);
  expect(shelf.writes).toEqual([['a*', 'b*'], ['a*']]);
  expect((await notes())[0]).toBe('a 0.1 stop');
});

test('ShootKeeper lets reports go that are not needed, gives them back, and writes nothing for either', async () => {
  const { its, keep, shelf } = keeper();
  const takes = [A, B, C];
  its.keep({ takes, tolerance: DEFAULT_TOLERANCE });
  await its.settled();
  const lighter = its.lighter(takes, new Set(['c']));
  expect(lighter.map(({ report }) => report === null)).toEqual([true, true, false]);
  expect(lighter.map(({ reading }) => reading)).toEqual(takes.map(({ reading }) => reading));
  its.keep({ takes: lighter, tolerance: DEFAULT_TOLERANCE });
  await its.settled();
  expect(shelf.writes).toHaveLength(1);
  const report = await its.reportOf(lighter[1]!);
  expect(report).toEqual(B.report);
  // shown again: its small facts are written, not the report that lies there
  await keep(lighter[0]!, { ...lighter[1]!, report }, C);
  expect(shelf.writes.at(-1)).toEqual(['b']);
});

test('ShootKeeper lets nothing go that has changed since it was written', async () => {
  const { its, keep } = keeper();
  await keep(A, B);
  const takes = [anew(A), noted(B, 'not written yet')];
  expect(its.lighter(takes, new Set())).toBe(takes);
});

test('ShootKeeper keeps the files of the newest take alone', async () => {
  const { keep, shelf } = keeper();
  const [a, b] = ['a', 'b'].map((id) => heldTake(id, { frames: [{ name: id, blob: new Blob([id]) }] }));
  await keep(a!);
  expect(shelf.held.get('shoot-1')!.files).toBe(a!.frames);
  await keep(a!, b!);
  expect(shelf.held.get('shoot-1')!.files).toBe(b!.frames);
});

test('ShootKeeper leaves a deleted take on the shelf as long as it can be taken back, and none after a reload', async () => {
  const { its, shelf, notes } = keeper();
  const keep = async (takes: HeldTake[], deleted: HeldTake | null) => {
    its.keep({ takes, tolerance: DEFAULT_TOLERANCE, deleted: deleted && { take: deleted } });
    await its.settled();
  };
  await keep([A, B, C], null);
  await keep([A, C], B);
  expect(await notes()).toEqual(['a', 'c']);
  await keep([A, B, C], null); // its report lies there still
  expect(shelf.writes).toEqual([['a*', 'b*', 'c*'], [], ['b']]);
  await keep([A, C], B);
  await keep([C], A);
  expect(shelf.writes.at(-1)).toEqual(['-b']);
  await keep([], C);
  expect(await notes()).toEqual([]);
  expect(shelf.writes.at(-1)).toEqual(['-a']);
  const [shoot] = await shelf.shoots();
  await shelf.tidy(shoot!.id);
  expect(shelf.writes.at(-1)).toEqual(['-c']);
});

test('ShootKeeper keeps what was answered, and says whether all of it is kept', async () => {
  const { its, shelf } = keeper();
  const answers = [{ kind: 'done' } as const, null];
  its.keep({ takes: [A], tolerance: DEFAULT_TOLERANCE, answers });
  expect(its.isAllKept).toBe(false);
  await its.settled();
  expect(its.isAllKept).toBe(true);
  expect((await shelf.shoots())[0]!.answers).toEqual(answers);
  shelf.trouble = 'QuotaExceededError';
  its.keep({ takes: [A], tolerance: DEFAULT_TOLERANCE, answers: [null, null] });
  await its.settled();
  expect(its.isAllKept).toBe(false);
});
