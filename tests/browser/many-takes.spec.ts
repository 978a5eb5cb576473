import { dropFolder, sixteenBitFrame, Tethered } from './followed-frames.ts';
import { heldByPage, keptTakes, takesOf } from './held-takes.ts';
import { expect, openBench, test, waitForVerdict } from './open-bench.ts';

const FIRST = 15;
const LAST = 40;
/** A report of these frames is 0.6 MB, as plain data; a take without it some 30 kB. */
const MEGABYTES_A_TAKE = 0.2;

test('a followed folder of many frames: reports do not pile up, and no take is lost', async ({
  page,
}, testInfo) => {
  test.setTimeout(180_000);
  const camera = new Tethered(testInfo.outputPath('shoot'), await sixteenBitFrame(96, 64));
  await openBench(page);
  await page.getByRole('combobox', { name: 'Arrangement' }).selectOption('panel');
  await dropFolder(page, camera.folder);
  await page.getByRole('combobox', { name: 'What the next frame counts as' }).selectOption('a new set-up');
  const readUpTo = async (count: number) => {
    camera.writeUpTo(count);
    await expect(page.getByText(`${count} new frames read.`)).toBeVisible({ timeout: 120_000 });
    await expect.poll(() => keptTakes(page)).toBe(count);
  };
  await readUpTo(FIRST);
  const before = await heldByPage(page);
  await readUpTo(LAST);
  const each = ((await heldByPage(page)) - before) / (LAST - FIRST);
  console.log(`measured: ${each.toFixed(3)} MB held by the page for each take more, of ${LAST} takes`);
  expect(each).toBeLessThan(MEGABYTES_A_TAKE);

  const taken = await takesOf(page);
  expect(taken.map(([, name]) => name).toSorted()).toEqual(
    Array.from({ length: LAST }, (_, i) => `T_${String(i + 1).padStart(4, '0')}.png`),
  );
  await page.reload(); // nothing is asked: all is kept
  await page.getByRole('button', { name: `Go on with ${LAST} takes` }).click();
  await waitForVerdict(page);
  expect(await takesOf(page)).toEqual(taken);

  // an old one is fetched to be shown
  await expect(page.getByRole('button', { name: /^Take \d/ })).toHaveCount(15);
  await page.getByRole('button', { name: `Show all ${LAST}` }).click();
  await page.getByRole('button', { name: /^Take 3 / }).click();
  await expect(page.getByRole('button', { name: /^Take 3 / })).toHaveAttribute('aria-current', 'true');
  await page.getByText('Take 3:').waitFor({ state: 'attached' });
});
