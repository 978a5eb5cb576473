import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { cutText } from './cut-text.ts';
import { A_READING, dropFiles, expect, openBench, test, waitForVerdict } from './open-bench.ts';

const BYTES = readFileSync(new URL('../../samples/sheet-off-centre.jpg', import.meta.url));
const WITHOUT_SPACES = `${'tumblerwall'.repeat(16)}.jpg`;
const WITH_SPACES = `Überfanggläser für den Katalog, 3. Aufbau — 背景のみ・被写体なし ${'пустой фон '.repeat(9)}.jpg`;
const FIGURE = 99_999;

const picture = (name: string) => ({ name, type: 'image/jpeg', bytes: BYTES });

/** The most that a set-up takes, wherever it holds a length. */
async function setLongLengths(page: Page): Promise<void> {
  await page.getByText('Size of the light, camera and room to move').click();
  await page.evaluate((mm) => {
    const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    bench.setup = {
      ...bench.setup,
      frameWidthMm: mm,
      lampDistanceMm: [mm],
      lampWidthMm: mm,
      cameraDistanceMm: mm,
      room: { leftMm: mm, rightMm: mm, upMm: mm, downMm: mm, reachMm: mm },
    };
  }, 10 * FIGURE);
  const words = page.locator('evenfield-setup-sentence').getByRole('textbox');
  for (const word of await words.all()) await expect(word).toHaveValue(`${FIGURE} cm`);
  expect(await words.count()).toBeGreaterThan(6);
}

test('words that stick out of their box or of the page are found', async ({ page }) => {
  await openBench(page);
  expect(await cutText(page)).toEqual([]);
  await page.evaluate(() => {
    const heading = document.querySelector('h1')!;
    heading.style.width = '20px';
  });
  expect(await cutText(page)).toEqual([expect.stringContaining('h1 "Evenfield" sticks out of h1')]);
  await page.evaluate(() => {
    const heading = document.querySelector('h1')!;
    heading.style.width = '3000px';
  });
  expect(await cutText(page)).toEqual([
    expect.stringMatching(/^the page is \d+ px wide in 1440, by h1 "Evenfield"$/),
  ]);
});

for (const [width, textPercent] of [
  [1440, 100],
  [390, 100],
  [390, 200],
] as const)
  test(`long names and the longest lengths are cut nowhere at ${width} px with text at ${textPercent} %`, async ({
    page,
  }) => {
    test.setTimeout(120_000);
    expect([WITHOUT_SPACES.length, WITH_SPACES.length].every((length) => length >= 150)).toBe(true);
    await page.setViewportSize({ width, height: 900 });
    await openBench(page);
    await page.evaluate((percent) => {
      document.documentElement.style.fontSize = `${percent}%`;
    }, textPercent);
    await expect(page.getByRole('heading', { name: 'Samples to try' })).toBeVisible();
    await setLongLengths(page);
    expect(await cutText(page), 'the first page').toEqual([]);
    const word = page.getByRole('textbox', { name: 'Distance of the light' });
    await word.fill('tumbler'.repeat(20));
    await word.press('Tab');
    await expect(page.getByText('is no length')).toBeVisible();
    expect(await cutText(page), 'a slip of the fingers').toEqual([]);

    await dropFiles(page, [
      { name: `${'notes'.repeat(36)}.txt`, type: '', bytes: Buffer.from('no picture') },
    ]);
    await expect(page.getByRole('alert')).toContainText('notesnotes');
    expect(await cutText(page), 'a file without spaces in its name that failed').toEqual([]);
    await dropFiles(page, [{ name: WITH_SPACES, type: '', bytes: Buffer.from('no picture') }]);
    await expect(page.getByRole('alert')).toContainText('背景のみ');
    expect(await cutText(page), 'a file with spaces in its name that failed').toEqual([]);

    await dropFiles(page, [picture(WITHOUT_SPACES)]);
    await waitForVerdict(page);
    await dropFiles(page, [picture(WITH_SPACES)]);
    await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible(A_READING);
    await waitForVerdict(page);
    await page.getByRole('textbox', { name: 'Note on take 1' }).fill('headahandtotheleft'.repeat(10));
    for (const answer of await page.getByRole('textbox', { name: /^(How far|Distance now)/ }).all()) {
      await answer.fill('9999.9'); // of a length to be typed
      await answer.press('Tab');
    }
    await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
    expect(await cutText(page), 'two takes').toEqual([]);
  });

test('a long name is shown whole while its file is opened, beside the button that stops it', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await page.route(`**/${WITHOUT_SPACES}`, () => {}); // never answered
  await page.evaluate((name) => {
    document
      .querySelector('evenfield-bench')!
      .read(name)
      .catch(() => {});
  }, WITHOUT_SPACES);
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toBeVisible();
  expect(await cutText(page)).toEqual([]);
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toHaveCount(0);
  expect(await cutText(page)).toEqual([]);
});
