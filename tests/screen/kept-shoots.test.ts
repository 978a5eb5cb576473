import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { KeptShoots } from '../../src/screen/kept-shoots.ts';
import { takeBytes } from '../../src/takes/take-bytes.ts';
import { heldTake as take } from '../takes/held-take.ts';
import { ShelfInMemory } from '../takes/shelf-in-memory.ts';
import { pagesOfBrowser } from './pages-of-browser.ts';

const moment = () => new Promise((resolve) => setTimeout(resolve, 0));

test('KeptShoots keeps a page’s takes, and lists them for the next page but not for their own', async () => {
  const { page, shelf } = pagesOfBrowser();
  const first = page();
  first.kept.keep({ takes: [], tolerance: DEFAULT_TOLERANCE }); // a page that has read nothing leaves nothing
  first.kept.keep({ takes: [take('a'), take('b')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  await first.kept.list();
  expect(first.kept.shoots).toEqual([]);
  const second = page();
  await second.kept.list();
  expect(second.kept.shoots).toMatchObject([{ id: 's1', takes: 2 }]);
  expect(shelf.writes).toEqual([['a*', 'b*']]);
});

test('KeptShoots lets a shoot be gone on with by one page at a time', async () => {
  const { page, shelf } = pagesOfBrowser();
  const first = page();
  first.kept.keep({ takes: [take('a')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  const second = page();
  await second.kept.list();
  const [shoot] = second.kept.shoots;
  expect(await second.kept.open(shoot!)).toBeNull();
  expect(second.kept.refused).toBe('in-use');
  await second.kept.delete(shoot!);
  expect(second.kept.refused).toBe('in-use');
  expect(shelf.held.size).toBe(1);
  first.close();
  const { takes, tolerance } = (await second.kept.open(shoot!))!;
  expect(tolerance).toBe(DEFAULT_TOLERANCE);
  expect(takes.map(({ id }) => id)).toEqual(['a']);
  expect(second.kept.shoots).toEqual([]);
  second.kept.keep({ takes: [...takes, take('b')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  expect(shelf.writes).toEqual([['a*'], ['b*']]);
});

test('KeptShoots keeps with the takes what their background was to become, and takes an older shoot’s for even', async () => {
  const { page } = pagesOfBrowser();
  const [ramp, even] = [page(), page()];
  const aim = { kind: 'ramp', angleDeg: 270, ev: 2 } as const;
  ramp.kept.keep({ takes: [take('a')], tolerance: DEFAULT_TOLERANCE, aim });
  even.kept.keep({ takes: [take('b')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  ramp.close();
  even.close();
  const next = page();
  await next.kept.list();
  const aims = await Promise.all(next.kept.shoots.map(async (shoot) => (await next.kept.open(shoot))!.aim));
  expect(aims).toEqual(expect.arrayContaining([aim, { kind: 'even' }]));
});

test('KeptShoots refuses by name what another version kept, and leaves it', async () => {
  const { page, shelf } = pagesOfBrowser();
  await shelf.put(
    { id: 'old', schema: 1, beganAt: 1, lastAt: 2, takes: 1, order: [], tolerance: DEFAULT_TOLERANCE },
    {},
  );
  const { kept } = page();
  await kept.list();
  expect(await kept.open(kept.shoots[0]!)).toBeNull();
  expect(kept.refused).toBe('other-schema');
  expect(shelf.held.size).toBe(1);
});

test('KeptShoots deletes a shoot and takes it back as it was', async () => {
  const { page, shelf } = pagesOfBrowser();
  const first = page();
  first.kept.keep({ takes: [take('a'), take('b')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  first.close();
  const { kept } = page();
  await kept.list();
  const before = structuredClone(shelf.held);
  await kept.delete(kept.shoots[0]!);
  expect(kept.shoots).toEqual([]);
  const other = page();
  await other.kept.list(); // another page neither lists it nor takes it from this one
  expect([other.kept.shoots, shelf.held.size]).toEqual([[], 1]);
  await kept.takeBack();
  expect(shelf.held).toEqual(before);
  expect(kept.shoots).toHaveLength(1);
  expect(kept.deleted).toBeNull();
  const [shoot] = kept.shoots;
  await kept.delete(shoot!); // and again: it is this page's own by now
  expect([kept.refused, kept.shoots]).toEqual([null, []]);
  await kept.takeBack();
  expect((await kept.open(shoot!))?.takes).toHaveLength(2);
});

test('KeptShoots deletes a shoot for good once another is, or the page that did is closed', async () => {
  const { page, shelf } = pagesOfBrowser();
  for (const id of ['a', 'b']) {
    const each = page();
    each.kept.keep({ takes: [take(id)], tolerance: DEFAULT_TOLERANCE });
    await moment();
    each.close();
  }
  const second = page();
  await second.kept.list();
  const [b, a] = second.kept.shoots;
  await second.kept.delete(a!);
  expect(shelf.held.size).toBe(2);
  await second.kept.delete(b!);
  expect([...shelf.held.keys()]).toEqual([b!.id]);
  second.close();
  await page().kept.list();
  expect(shelf.held.size).toBe(0);
});

test('KeptShoots says so of takes that can’t be opened, and leaves them, also where they are deleted and taken back', async () => {
  const { page, shelf } = pagesOfBrowser();
  const first = page();
  first.kept.keep({ takes: [take('a')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  first.close();
  const { kept } = page();
  await kept.list();
  const [shoot] = kept.shoots;
  const { takesOf } = shelf;
  shelf.takesOf = () => Promise.reject(new Error('damaged'));
  expect(await kept.open(shoot!)).toBeNull();
  expect(kept.refused).toBe('not-opened');
  await kept.delete(shoot!);
  await kept.takeBack();
  shelf.takesOf = takesOf;
  expect((await kept.open(shoot!))?.takes).toHaveLength(1);
});

test('KeptShoots tells what keeps takes from being kept', async () => {
  const { page, shelf } = pagesOfBrowser();
  const { kept } = page();
  let changes = 0;
  kept.addEventListener('change', () => changes++);
  shelf.trouble = 'QuotaExceededError';
  kept.keep({ takes: [take('a')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  expect([kept.trouble, changes > 0]).toEqual(['full', true]);
});

test('KeptShoots tells how many more takes fit where that are few, and asks once to keep for good', async () => {
  const shelf = new ShelfInMemory();
  let [left, asked] = [1e12, 0];
  const kept = new KeptShoots({
    ...{ shelf, claim: async () => true, bytesLeft: async () => left },
    keepForGood: async () => {
      asked++;
      return true;
    },
  });
  const rooms: (number | null)[] = [];
  const keep = async (...ids: string[]) => {
    kept.keep({ takes: ids.map((id) => take(id)), tolerance: DEFAULT_TOLERANCE });
    await kept.settled();
    await moment();
    rooms.push(kept.room);
  };
  await keep('a');
  left = 12 * takeBytes(16) + 1;
  await keep('a', 'b');
  left = 0;
  await keep('a', 'b', 'c');
  expect(rooms).toEqual([null, 12, 0]);
  expect(asked).toBe(1);
});

test('KeptShoots deletes for good where room is wanted, and keeps then what did not fit', async () => {
  const { page, shelf } = pagesOfBrowser();
  const first = page();
  first.kept.keep({ takes: [take('a')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  first.close();
  const { kept } = page();
  shelf.trouble = 'QuotaExceededError';
  kept.keep({ takes: [take('b')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  expect([kept.trouble, kept.shoots.length]).toEqual(['full', 1]);
  shelf.trouble = null;
  await kept.delete(kept.shoots[0]!);
  await kept.settled();
  expect([kept.trouble, kept.deleted, [...shelf.held.keys()]]).toEqual([null, null, ['s2']]);
});
