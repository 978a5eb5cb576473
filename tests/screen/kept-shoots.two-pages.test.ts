import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { heldTake as take } from '../takes/held-take.ts';
import { pagesOfBrowser } from './pages-of-browser.ts';

const moment = () => new Promise((resolve) => setTimeout(resolve, 0));

/** A shoot of one take, listed by a page before another went on with it, read a second take and closed. */
async function listedBefore() {
  const { page, shelf } = pagesOfBrowser();
  const [first, late] = [page(), page()];
  first.kept.keep({ takes: [take('a')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  first.close();
  await late.kept.list();
  const [listed] = late.kept.shoots;
  const between = page();
  const { takes } = (await between.kept.open(listed!))!;
  between.kept.keep({ takes: [...takes, take('b')], tolerance: DEFAULT_TOLERANCE });
  await moment();
  return { page, shelf, late, listed: listed!, between };
}

const ids = (takes: readonly { id: string }[] | undefined) => takes?.map(({ id }) => id);

test('a shoot that another page went on with since it was listed is opened as it is now, and loses no take', async () => {
  const { shelf, late, listed, between } = await listedBefore();
  between.close();
  const opened = await late.kept.open(listed);
  await moment();
  expect(ids(opened?.takes)).toEqual(['a', 'b']);
  const { shoot, facts, judged } = shelf.held.get(listed.id)!;
  expect([shoot.order, [...facts.keys()], [...judged.keys()]]).toEqual(Array(3).fill(['a', 'b']));
});

test('such a shoot that is deleted and taken back comes back as it is now', async () => {
  const { page, shelf, late, listed, between } = await listedBefore();
  between.close();
  const before = structuredClone(shelf.held);
  await late.kept.delete(listed);
  expect([late.kept.deleted?.takes, shelf.held.get(listed.id)!.shoot.isDeleted]).toEqual([2, true]);
  await late.kept.takeBack();
  expect(shelf.held).toEqual(before);
  late.close();
  expect(ids((await page().kept.open(listed))?.takes)).toEqual(['a', 'b']);
});

test('a shoot that another page deleted is neither opened nor deleted again, and leaves the list', async () => {
  const { late, listed, between, page, shelf } = await listedBefore();
  between.close();
  const deleter = page();
  await deleter.kept.delete(listed);
  deleter.close();
  expect(await late.kept.open(listed)).toBeNull();
  expect(late.kept.refused).toBe('gone');
  await moment();
  expect([late.kept.shoots, shelf.held.size]).toEqual([[], 0]);
  await late.kept.delete(listed);
  expect([late.kept.refused, late.kept.deleted, shelf.held.size]).toEqual(['gone', null, 0]);
});

test('a shoot that its page took back is not done away with by another that saw it deleted', async () => {
  const { page, shelf, listed, between } = await listedBefore();
  between.close();
  const [deleter, other] = [page(), page()];
  await deleter.kept.delete(listed);
  const { shoots } = shelf;
  shelf.shoots = async () => {
    const seen = await shoots.call(shelf);
    await deleter.kept.takeBack();
    deleter.close();
    return seen;
  };
  await other.kept.list();
  expect(shelf.held.get(listed.id)?.shoot).toMatchObject({ takes: 2, order: ['a', 'b'] });
});

test('what is gone by the time it is to be taken back stays so', async () => {
  const { shelf, late, listed, between } = await listedBefore();
  between.close();
  await late.kept.delete(listed);
  await shelf.remove(listed.id);
  await late.kept.takeBack();
  expect([late.kept.refused, late.kept.deleted, shelf.held.size]).toEqual(['gone', null, 0]);
});
