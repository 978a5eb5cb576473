import { expect, test } from '@playwright/test';
import { dropFolder, sixteenBitFrame, Tethered } from '../browser/followed-frames.ts';
import { heldByPage, keptTakes, takesOf } from '../browser/held-takes.ts';
import { settledMegabytes, TIDY_FLAGS } from '../browser/renderer-memory.ts';

test.use({
  launchOptions: async ({ launchOptions }, use) =>
    use({ ...launchOptions, args: [...launchOptions.args!, ...TIDY_FLAGS] }),
});

const ALL = 500;
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!;

test('500 frames of one shoot into a followed folder, then read again from the database', async ({
  page,
  browser,
}, testInfo) => {
  test.setTimeout(3_600_000);
  const camera = new Tethered(testInfo.outputPath('shoot'), await sixteenBitFrame(768, 512));
  await page.goto('./');
  await page.getByRole('combobox', { name: 'Arrangement' }).selectOption('panel');
  await dropFolder(page, camera.folder);
  await page.getByRole('combobox', { name: 'What the next frame counts as' }).selectOption('a new set-up');
  const readUpTo = async (count: number) => {
    camera.writeUpTo(count);
    await expect(page.getByText(`${count} new frames read.`)).toBeVisible({ timeout: 3_000_000 });
    await expect.poll(() => keptTakes(page), { timeout: 60_000 }).toBe(count);
  };
  /** Milliseconds from a complete file to its verdict, of five that come one by one. */
  const verdictAfter = async () => {
    const times: number[] = [];
    for (let i = 0; i < 5; i++) {
      await page.waitForTimeout(1500);
      const told = page.evaluate(
        () =>
          new Promise<number>((resolve) => {
            document.addEventListener('evenfield-reading', () => resolve(Date.now()), { once: true });
          }),
      );
      const complete = Date.now();
      camera.writeUpTo(camera.written + 1);
      times.push((await told) - complete);
    }
    await readUpTo(camera.written);
    return median(times);
  };
  const usage = () => page.evaluate(async () => (await navigator.storage.estimate()).usage ?? 0);
  const measured = async () => ({
    held: await heldByPage(page),
    process: await settledMegabytes(page, browser),
    bytes: await usage(),
  });

  await readUpTo(10);
  const early = await verdictAfter();
  const before = await measured();
  await readUpTo(ALL - 5);
  const late = await verdictAfter();
  const after = await measured();
  const more = ALL - 15;
  const each = (after.held - before.held) / more;
  const kept = (after.bytes - before.bytes) / more / 1e6;
  console.log(`measured: a verdict ${early} ms after the file at take 15, ${late} ms at take ${ALL}`);
  console.log(
    `measured: each take more is ${each.toFixed(3)} MB in the page, ${kept.toFixed(2)} MB in the database; the page's process holds ${before.process?.toFixed(0)} MB at take 15, ${after.process?.toFixed(0)} MB at take ${ALL}`,
  );
  const takes = await takesOf(page);
  expect(takes.length).toBe(ALL);
  await page.reload();
  const start = Date.now();
  await page.getByRole('button', { name: `Go on with ${ALL} takes` }).click();
  await expect(page.locator('.verdict')).toBeVisible();
  console.log(`measured: ${Date.now() - start} ms to go on with ${ALL} takes`);
  expect(await takesOf(page)).toEqual(takes);
});
