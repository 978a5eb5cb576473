import type { Page } from '@playwright/test';
import { chooseSample, expect, openBench, takeIds, test, waitForVerdict } from './open-bench.ts';

const goOn = /^Go on with \d take/;

test('takes outlive a reload: they are gone on with as they were left, and the next one is kept too', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await chooseSample(page, 'Nearly perfect');
  await page.getByRole('textbox', { name: 'Note' }).last().fill('sheet ironed');
  await page.getByRole('textbox', { name: 'Note' }).last().blur();
  const verdict = await page.locator('.verdict').textContent();
  page.on('dialog', (dialog) => dialog.accept()); // the page asks before it is left
  await page.waitForTimeout(1500);
  await page.reload();

  await expect(page.getByRole('heading', { name: 'Kept in this browser' })).toBeVisible();
  await page.getByRole('button', { name: goOn }).focus();
  await page.keyboard.press('Enter');
  await waitForVerdict(page);
  expect(await page.locator('.verdict').textContent()).toBe(verdict);
  expect(await takeIds(page)).toEqual(['take-1', 'take-2']);
  await expect(page.getByRole('textbox', { name: 'Note' }).last()).toHaveValue('sheet ironed');
  // judged anew without its file, and a profile made of it
  await page.getByRole('combobox', { name: 'Yardstick' }).selectOption({ index: 1 });
  await expect(page.locator('.verdict')).not.toHaveText(verdict!);
  await chooseSample(page, 'Tinted sheet');
  await page.waitForTimeout(1500);
  await page.reload();
  await expect(page.getByRole('button', { name: /^Go on with 3 takes/ })).toBeVisible();
});

test('a killed tab loses no take that was read', async ({ page, context, watch }) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await page.waitForTimeout(1500);
  await page.getByRole('button', { name: /Sheet lit off centre/ }).click();
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toBeVisible();
  const session = await context.newCDPSession(page);
  session.send('Page.crash').catch(() => {}); // in the middle of a reading
  await page.waitForEvent('crash');
  const after = await context.newPage();
  await openBench(after);
  await after.getByRole('button', { name: /^Go on with 1 take/ }).click();
  await waitForVerdict(after);
  expect(await takeIds(after)).toEqual(['take-1']);
  expect(watch.requests.length).toBeGreaterThan(0);
});

test('two pages on one database: each keeps its own, and none opens what the other has', async ({
  page,
  context,
}) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await page.waitForTimeout(1500);
  const other = await context.newPage();
  await openBench(other);
  await other.getByRole('button', { name: goOn }).click();
  await expect(other.getByText('These takes are open in another page of this browser.')).toBeVisible();
  await other.getByRole('button', { name: /^Delete 1 take/ }).click();
  await expect(other.getByText('These takes are open in another page of this browser.')).toBeVisible();
  await chooseSample(other, 'Tinted sheet');
  await other.waitForTimeout(1500);
  await page.close();

  const third = await context.newPage();
  await openBench(third);
  await expect(third.getByRole('button', { name: goOn })).toHaveCount(2);
  await third
    .getByRole('button', { name: /^Delete/ })
    .last()
    .click(); // the first page's, the older one
  await expect(third.getByRole('button', { name: goOn })).toHaveCount(1);
  await third.getByRole('button', { name: 'Take it back' }).click();
  await expect(third.getByRole('button', { name: goOn })).toHaveCount(2);
});

/** A page that was closed holds its takes for a moment more, longer where the browser is busy. */
const nothingIsHeld = (page: Page) =>
  expect
    .poll(() => page.evaluate(async () => (await navigator.locks.query()).held), { timeout: 15_000 })
    .toEqual([]);

test('what another page added since a shoot was listed is gone on with too, and stays', async ({
  page,
  context,
}) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await page.waitForTimeout(1500);
  await page.close();
  const late = await context.newPage();
  await openBench(late);
  await expect(late.getByRole('button', { name: /^Go on with 1 take/ })).toBeVisible();
  await nothingIsHeld(late);
  const between = await context.newPage();
  await openBench(between);
  await between.getByRole('button', { name: goOn }).click();
  await waitForVerdict(between);
  await chooseSample(between, 'Tinted sheet');
  await expect.poll(() => keysIn(between, 'evidence')).toBe('take-1 take-2');
  await between.waitForTimeout(1500);
  await between.close();
  await nothingIsHeld(late);

  await late.getByRole('button', { name: /^Go on with 1 take/ }).click();
  await waitForVerdict(late);
  expect(await takeIds(late)).toEqual(['take-1', 'take-2']);
  // and after what is no longer in the order was tidied away
  await late.waitForTimeout(500);
  await late.reload();
  await late.getByRole('button', { name: /^Go on with 2 takes/ }).click();
  await waitForVerdict(late);
  expect(await takeIds(late)).toEqual(['take-1', 'take-2']);
});

/** What lies in one store of the browser's database. */
const keysIn = (page: Page, store: string) =>
  page.evaluate(
    (name) =>
      new Promise<string>((resolve, reject) => {
        const opening = indexedDB.open('evenfield');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const asked = opening.result.transaction(name).objectStore(name).getAllKeys();
          asked.onsuccess = () => {
            opening.result.close();
            resolve(asked.result.map((key) => [key].flat().at(-1)).join(' '));
          };
        };
      }),
    store,
  );

test('a deleted take is done away with once its shoot is gone on with, and a shoot without takes once its page is closed', async ({
  page,
  context,
}) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await chooseSample(page, 'Tinted sheet');
  await page.getByRole('button', { name: 'Delete take 1' }).click();
  await page.waitForTimeout(1500);
  expect(await keysIn(page, 'evidence')).toBe('take-1 take-2');
  await page.close();

  const next = await context.newPage();
  await openBench(next);
  await next.getByRole('button', { name: goOn }).click();
  await waitForVerdict(next);
  await expect.poll(() => keysIn(next, 'evidence')).toBe('take-2');
  await next.getByRole('button', { name: 'Delete take 2' }).click();
  await next.waitForTimeout(1500);
  expect(await keysIn(next, 'evidence')).toBe('take-2');
  await next.close();

  const last = await context.newPage();
  await openBench(last);
  for (const store of ['shoots', 'facts', 'maps', 'evidence', 'files'])
    await expect.poll(() => keysIn(last, store)).toBe('');
});

test('a database that is full is told of, and reading goes on', async ({ page }) => {
  await page.addInitScript(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
  });
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await expect(page.getByText('There is no room left in this browser')).toBeVisible();
  await chooseSample(page, 'Tinted sheet');
  expect(await takeIds(page)).toEqual(['take-1', 'take-2']);
});

test('what a newer version of the tool keeps is refused by name and left as it is; reading goes on', async ({
  page,
}) => {
  await openBench(page);
  const version = () =>
    page.evaluate(
      async () => (await indexedDB.databases()).find(({ name }) => name === 'evenfield')?.version,
    );
  await page.evaluate(
    () =>
      new Promise<void>((made, failed) => {
        const opening = indexedDB.open('evenfield', 99);
        opening.onupgradeneeded = () => opening.result.createObjectStore('of-a-later-tool');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          opening.result.close();
          made();
        };
      }),
  );
  await page.reload();
  await expect(page.getByText('was written by a newer version of this tool')).toBeVisible();
  await chooseSample(page, 'Nearly perfect');
  expect(await takeIds(page)).toEqual(['take-1']);
  await expect(page.getByText('was written by a newer version of this tool')).toBeVisible();
  expect(await version()).toBe(99);
});
