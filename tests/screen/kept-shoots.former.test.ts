import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { partsOf } from '../../src/takes/shelved-take.ts';
import { TAKE_SCHEMA } from '../../src/takes/take-shelf.ts';
import { heldTake as take } from '../takes/held-take.ts';
import { pagesOfBrowser } from './pages-of-browser.ts';
import { heldBack } from './session-watch.ts';

const moment = () => new Promise((resolve) => setTimeout(resolve, 0));

/** What a job holds of one take. */
function jobOf(id: string) {
  const { facts, judged } = partsOf(take(id), true);
  const shoot = {
    ...{ schema: TAKE_SCHEMA, beganAt: 1, lastAt: 2, takes: 1, order: [id], tolerance: DEFAULT_TOLERANCE },
  };
  async function* takes() {
    yield [id, { facts, judged: judged! }] as const;
  }
  return { shoot, takes: takes() };
}

test('what was noted just before a job is opened is kept with the shoot that it belongs to', async () => {
  const { held, letGo } = heldBack();
  const { page, shelf } = pagesOfBrowser(() => held);
  const { kept } = page();
  const a = take('a');
  kept.keep({ takes: [a], tolerance: DEFAULT_TOLERANCE });
  await moment();
  const { put } = shelf;
  shelf.put = async (shoot, change) => {
    shelf.put = put;
    // while the job is put there, somebody notes something
    kept.keep({ takes: [{ ...a, note: 'sheet ironed' }], tolerance: DEFAULT_TOLERANCE });
    await shelf.put(shoot, change);
  };
  const job = jobOf('j');
  const opening = kept.adopt(job.shoot, job.takes, false);
  await moment();
  letGo();
  expect((await opening)?.takes.map(({ id }) => id)).toEqual(['j']);
  await kept.settled();
  expect(shelf.held.get('s1')!.facts.get('a')!.note).toBe('sheet ironed');
  expect([...shelf.held.get('s2')!.facts.keys()]).toEqual(['j']);
});

test('the shoot that a page held before it opened another is listed as an earlier one', async () => {
  const { page } = pagesOfBrowser();
  const { kept } = page();
  kept.keep({ takes: [take('a')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  const job = jobOf('j');
  await kept.adopt(job.shoot, job.takes, false);
  await moment();
  expect(kept.shoots.map(({ id }) => id)).toEqual(['s1']);
  await kept.open(kept.shoots[0]!);
  await moment();
  expect(kept.shoots.map(({ id }) => id)).toEqual(['s2']);
});

test('a shoot whose last take was deleted goes for good with its evidence once its page is closed, and no sooner', async () => {
  const { page, shelf } = pagesOfBrowser();
  const [first, other] = [page(), page()];
  const a = take('a');
  first.kept.keep({ takes: [a], tolerance: DEFAULT_TOLERANCE });
  await moment();
  first.kept.keep({ takes: [], tolerance: DEFAULT_TOLERANCE, deleted: { take: a } });
  await moment();
  await first.kept.list();
  await other.kept.list();
  expect([...shelf.held.get('s1')!.judged.keys()]).toEqual(['a']); // it can be taken back
  first.close();
  await other.kept.list();
  expect([other.kept.shoots, shelf.held.size]).toEqual([[], 0]);
});

test('an empty shoot of another version is left as it is', async () => {
  const { page, shelf } = pagesOfBrowser();
  const old = { id: 'old', schema: TAKE_SCHEMA - 1, beganAt: 1, lastAt: 2, takes: 0, order: [] };
  await shelf.put({ ...old, tolerance: DEFAULT_TOLERANCE }, {});
  await page().kept.list();
  expect(shelf.held.size).toBe(1);
});
