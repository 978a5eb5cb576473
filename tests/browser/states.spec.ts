import type { Page } from '@playwright/test';
import { violations } from './axe-violations.ts';
import { writeLargeJpeg } from './large-jpeg.ts';
import { chooseSample, expect, noteErrors, openBench, takeIds, test } from './open-bench.ts';

const reading = (page: Page) => page.getByRole('progressbar', { name: 'Reading' });

/** Makes a frame's address one that neither answers nor fails, so that its reading stays under way. */
async function holdBack(page: Page, file: string): Promise<void> {
  await page.route(`**/${file}`, () => {});
}

/** Lets the engine's worker, idle now, throw outside all its calls when it next decodes, as one that has run out of memory. */
async function breakAtDecoding(page: Page, message: string): Promise<void> {
  await page
    .workers()
    .at(-1)!
    .evaluate((says) => {
      ImageDecoder.prototype.decode = () =>
        new Promise(() => {
          setTimeout(() => {
            throw new Error(says);
          });
        });
    }, message);
}

for (const [look, media] of [
  ['light', { colorScheme: 'light' }],
  ['dark', { colorScheme: 'dark' }],
  ['forced colours', { forcedColors: 'active' }],
] as const)
  test(`nothing yet, reading, stopped, failed and worker lost pass axe in ${look}, and the page goes on`, async ({
    page,
  }, testInfo) => {
    test.setTimeout(120_000);
    await page.emulateMedia(media);
    const path = await writeLargeJpeg(testInfo.outputPath('large-frame.jpg'));
    await openBench(page);
    await expect(page.getByRole('heading', { name: 'Samples to try' })).toBeVisible();
    expect(await violations(page), 'nothing yet').toEqual([]);

    await holdBack(page, 'room-spill.png');
    await page.getByRole('button', { name: 'Room spill' }).click();
    await expect(reading(page)).toBeVisible();
    await expect(page.getByText('Opening room-spill.png')).toBeVisible();
    expect(await violations(page), 'reading the first frame').toEqual([]);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect(reading(page)).toHaveCount(0);
    await expect(page.getByRole('alert')).toContainText('cancelled');
    await expect(page.getByText('Light the background, take the subject out')).toBeVisible();
    expect(await violations(page), 'stopped').toEqual([]);

    await page
      .getByLabel('Choose a frame…')
      .setInputFiles({ name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') });
    await expect(page.getByRole('alert')).toContainText('notes.txt');
    expect(await violations(page), 'failed').toEqual([]);

    await chooseSample(page, 'Nearly perfect');
    await page.getByRole('button', { name: 'Room spill' }).click();
    await expect(reading(page)).toBeVisible();
    expect(await violations(page), 'reading with an earlier take').toEqual([]);

    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect(reading(page)).toHaveCount(0);
    await breakAtDecoding(page, 'out of memory');
    await page.getByLabel('Read another frame…').setInputFiles(path);
    await expect(page.getByRole('alert')).toContainText('The engine stopped: ');
    await expect(page.getByRole('alert')).toContainText('out of memory');
    await expect(page.getByRole('alert')).toContainText('The earlier takes are');
    await expect(reading(page)).toHaveCount(0);
    expect(await takeIds(page)).toEqual(['take-1']);
    expect(await violations(page), 'worker lost').toEqual([]);

    await chooseSample(page, 'Tinted sheet');
    await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
    await expect(page.getByRole('alert')).toBeEmpty();
  });

test('Cancel while a 24-megapixel JPEG is read brings the earlier take back at once', async ({
  page,
}, testInfo) => {
  const path = await writeLargeJpeg(testInfo.outputPath('large-frame.jpg'));
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  const verdict = await page.locator('.verdict').textContent();
  const errors = await noteErrors(page);
  await page.evaluate(() => {
    const times: { pressedAt?: number; toldAt?: number; fractions: number } = { fractions: 0 };
    Object.assign(window, { cancelTimes: times });
    window.addEventListener('pointerup', () => (times.pressedAt = performance.now()), { capture: true });
    document.addEventListener('evenfield-error', () => (times.toldAt = performance.now()));
    document.addEventListener('evenfield-progress', (event) => {
      if ((event as CustomEvent).detail.phase !== 'opening') times.fractions++;
    });
  });
  await page.getByLabel('Read another frame…').setInputFiles(path);
  const times = () =>
    page.evaluate(
      () =>
        (window as unknown as { cancelTimes: Record<'pressedAt' | 'toldAt' | 'fractions', number> })
          .cancelTimes,
    );
  await expect.poll(async () => (await times()).fractions, { intervals: [20] }).toBeGreaterThan(0); // in the engine's hands
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(reading(page)).toHaveCount(0);
  const { pressedAt, toldAt } = await times();
  console.log(`measured: from Cancel to the earlier state ${(toldAt - pressedAt).toFixed(1)} ms`);
  expect(toldAt).toBeGreaterThanOrEqual(pressedAt);
  expect(toldAt - pressedAt).toBeLessThan(100);
  expect(await errors()).toMatchObject([{ code: 'cancelled', fileName: 'large-frame.jpg' }]);
  expect(await takeIds(page)).toEqual(['take-1']);
  expect(await page.locator('.verdict').textContent()).toBe(verdict);
  await chooseSample(page, 'Tinted sheet'); // by a fresh worker
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
});

test('a worker that ends without a word can be given up by Cancel, and the next frame is read', async ({
  page,
}, testInfo) => {
  const path = await writeLargeJpeg(testInfo.outputPath('large-frame.jpg'));
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await page
    .workers()
    .at(-1)!
    .evaluate(() => self.close());
  await page.getByLabel('Read another frame…').setInputFiles(path);
  await expect(reading(page)).toBeVisible();
  await page.waitForTimeout(500);
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(reading(page)).toHaveCount(0);
  expect(await takeIds(page)).toEqual(['take-1']);
  await chooseSample(page, 'Tinted sheet');
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
});
