import { appendFileSync, copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { dropFolder } from './followed-frames.ts';
import { A_READING, expect, noteErrors, openBench, takeIds, test } from './open-bench.ts';

const SAMPLES = new URL('../../samples/', import.meta.url).pathname;

/** When, by the page's clock, the first news of the next reading comes. */
const nextBegins = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        document.addEventListener('evenfield-progress', () => resolve(Date.now()), { once: true });
      }),
  );

const told = (page: Page) => page.getByText(/^Following/);

test('a followed folder: frames are read once they are complete, whatever else happens to it', async ({
  page,
}, testInfo) => {
  test.setTimeout(120_000);
  const folder = testInfo.outputPath('tethered');
  mkdirSync(folder, { recursive: true });
  copyFileSync(join(SAMPLES, 'tinted-sheet.jpg'), join(folder, 'from-before.jpg'));
  await openBench(page);
  await dropFolder(page, folder);
  await expect(told(page)).toContainText('Following “tethered”: no new frame yet.');
  expect(await takeIds(page)).toEqual([]);

  // written in two goes, under its own name
  const bytes = readFileSync(join(SAMPLES, 'nearly-perfect.png'));
  writeFileSync(join(folder, 'T_0001.png'), bytes.subarray(0, 1000));
  await page.waitForTimeout(150);
  const begins = nextBegins(page);
  appendFileSync(join(folder, 'T_0001.png'), bytes.subarray(1000));
  const complete = Date.now();
  const begun = await begins;
  console.log(`measured: ${begun - complete} ms from complete to being read`);
  expect(begun - complete).toBeLessThan(1000);
  await expect(told(page)).toContainText('1 new frame read', A_READING);
  await expect(page.locator('.verdict')).toBeVisible();

  // shot right after: nothing can have been moved
  copyFileSync(join(SAMPLES, 'nearly-perfect.png'), join(folder, 'T_0002.png.part'));
  await page.waitForTimeout(700);
  await expect(told(page)).toContainText('1 new frame read.');
  copyFileSync(join(SAMPLES, 'nearly-perfect.png'), join(folder, 'T_0002.png'));
  await expect(told(page)).toContainText('2 new frames read', A_READING);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();

  const errors = await noteErrors(page);
  writeFileSync(join(folder, 'T_0003.jpg'), 'no picture at all');
  await expect(told(page)).toContainText('1 could not be', A_READING);
  expect(await errors()).toMatchObject([{ code: 'not-an-image', fileName: 'T_0003.jpg' }]);
  expect((await takeIds(page)).length).toBe(2);

  rmSync(folder, { recursive: true });
  await expect(page.getByText('The folder is not there just now.')).toBeVisible();
  mkdirSync(folder);
  await expect(page.getByText('The folder is not there just now.')).toHaveCount(0);
  copyFileSync(join(SAMPLES, 'tinted-sheet.jpg'), join(folder, 'T_0004.jpg'));
  await expect(told(page)).toContainText('3 new frames read', A_READING);

  // the page is lost, the folder is followed again by one press
  page.on('dialog', (dialog) => dialog.accept());
  await page.reload();
  await page.getByRole('button', { name: 'Follow “tethered” again' }).click();
  await expect(told(page)).toContainText('no new frame yet');
  copyFileSync(join(SAMPLES, 'tinted-sheet.jpg'), join(folder, 'T_0005.jpg'));
  await expect(told(page)).toContainText('1 new frame read', A_READING);

  await page.getByRole('button', { name: 'Stop following' }).click();
  await expect(page.getByRole('button', { name: 'Follow a folder…' })).toBeVisible();
  copyFileSync(join(SAMPLES, 'tinted-sheet.jpg'), join(folder, 'T_0006.jpg'));
  await page.waitForTimeout(800);
  expect((await takeIds(page)).length).toBe(1);
});

test('a burst of frames into a followed folder is read one after another, and none is lost', async ({
  page,
}, testInfo) => {
  test.setTimeout(120_000);
  const folder = testInfo.outputPath('burst');
  mkdirSync(folder, { recursive: true });
  await openBench(page);
  await dropFolder(page, folder);
  await expect(told(page)).toContainText('no new frame yet');
  await page.getByRole('combobox', { name: 'What the next frame counts as' }).selectOption('a new set-up');
  await page.evaluate(() => {
    const tones: number[] = [];
    Object.assign(window, { tones });
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (when?: number) {
      tones.push(this.frequency.value);
      start.call(this, when);
    };
  });
  await page.getByRole('combobox', { name: 'How each verdict is told' }).selectOption('heard');
  for (let i = 1; i <= 8; i++) copyFileSync(join(SAMPLES, 'nearly-perfect.png'), join(folder, `B_${i}.png`));
  await expect(told(page)).toContainText('waiting', A_READING);
  await expect(told(page)).toContainText('8 new frames read.', { timeout: 90_000 });
  expect((await takeIds(page)).length).toBe(8);
  expect(await page.evaluate(() => (window as unknown as { tones: number[] }).tones.length)).toBe(16); // two rising
});
