import { readFileSync } from 'node:fs';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

/** Pages of a PDF that a browser printed, by its own count of them. */
const pagesOf = (pdf: Buffer) =>
  Number(
    /\/Type \/Pages\s[^>]*?\/Count (\d+)|\/Count (\d+)/.exec(pdf.toString('latin1'))?.slice(1).find(Boolean),
  );

test('the record is one page of A4 and of Letter, whatever was read', async ({ page }) => {
  for (const title of ['Two unequal lights', 'One side dark and cool', 'Clipped']) {
    await openBench(page);
    await chooseSample(page, title);
    for (const format of ['A4', 'Letter'] as const)
      expect(pagesOf(await page.pdf({ format })), `${title} on ${format}`).toBe(1);
  }
});

test('so it is where the background is to be clean white, or a ramp: that is said, and how far it is exposed', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Two unequal lights');
  for (const [aim, words] of [
    ['clean white', 'The background is to be clean white, where the file clips'],
    ['a ramp', 'The background is to be a ramp of 2 stops, brighter towards the top.'],
  ] as const) {
    await page.getByRole('combobox', { name: 'Aim' }).selectOption(aim);
    await expect(page.locator('.verdict').first()).toContainText(aim.split(' ')[1]!);
    for (const format of ['A4', 'Letter'] as const)
      expect(pagesOf(await page.pdf({ format })), `${aim} on ${format}`).toBe(1);
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    await expect(page.locator('evenfield-record').getByText(words)).toBeVisible();
    await expect(page.locator('evenfield-record').getByText('Stops below clipping')).toBeVisible();
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: null });
  }
});

test('on paper there are the maps and every figure, and no controls; on the screen there is no record', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Two unequal lights');
  await page.evaluate(() => {
    let prints = 0;
    window.print = () => {
      prints++;
      Object.assign(window, { prints });
    };
  });
  await page.getByRole('button', { name: 'Print the record…' }).click();
  expect(await page.evaluate(() => (window as unknown as { prints: number }).prints)).toBe(1);
  const record = page.locator('evenfield-record');
  await expect(record.getByText('Moves made before it')).toHaveCount(0);
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  await page.emulateMedia({ media: 'print' });
  await expect(record.getByRole('img', { name: 'Light' })).toBeVisible();
  await expect(record.getByRole('img', { name: 'Tint' })).toBeVisible();
  for (const words of [
    'Darkest of brightest',
    'Distance of the left light',
    'None: the first take of its set-up.',
    '1/25 s, f/8.0, ISO 100, 105 mm',
  ])
    await expect(record.getByText(words)).toBeVisible();
  await expect(page.getByRole('button')).toHaveCount(0);
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.emulateMedia({ media: null });
  await expect(record.getByText('Moves made before it')).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Print the record…' })).toBeVisible();
});

test('the cells are saved as a table', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Two unequal lights');
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the cells' }).click();
  const file = await saved;
  expect(file.suggestedFilename()).toBe('two-unequal-lights.cells.csv');
  const lines = readFileSync(await file.path(), 'utf8')
    .trim()
    .split('\r\n');
  expect(lines).toHaveLength(1 + 96 * 64);
});
