import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import type { Page } from '@playwright/test';
import { personalJpeg, personalWordsIn } from '../engine/export/personal-frame.ts';
import { randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { A_READING, expect, openBench, test, waitForVerdict } from './open-bench.ts';

/** A frame whose Exif, maker's note and XMP name its owner, its place, and the numbers of camera and lens. */
async function personalFrame(name: string) {
  const { field } = randomField(7, { spreadEv: 0.6 });
  const frame = renderFrame(field, {
    ...{ widthPx: 360, heightPx: 240, bits: 8, curve: 'srgb', electronsAtFull: 30_000, seed: 1 },
  });
  return { name, mimeType: 'image/jpeg', buffer: Buffer.from(await personalJpeg(frame)) };
}

async function saved(page: Page, button: string): Promise<Buffer> {
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: button, exact: true }).click();
  return readFileSync(await (await downloading).path());
}

/** All that the page holds, in every element's own tree: text, names and addresses. */
const wholePage = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const texts: string[] = [];
    const walk = (root: Node) => {
      if (root instanceof Element) texts.push(...[...root.attributes].map(({ value }) => value));
      if (root instanceof HTMLInputElement) texts.push(root.value);
      if (root instanceof Element && root.shadowRoot) walk(root.shadowRoot);
      if (root instanceof Text) texts.push(root.data);
      for (const child of root.childNodes) walk(child);
    };
    walk(document);
    return texts.join('\n');
  });

test('neither the page, its record, nor what is saved from it tells whose frame it was, where, or by which camera', async ({
  page,
}) => {
  await openBench(page);
  const frame = await personalFrame('blank.jpg');
  expect(personalWordsIn(frame.buffer).length).toBeGreaterThan(10);
  await page.getByLabel('Choose a frame…').setInputFiles(frame);
  await waitForVerdict(page);
  await expect(page.getByRole('heading', { name: 'Correct the frames' })).toBeVisible(A_READING);
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  await page.emulateMedia({ media: 'print' });
  const record = page.locator('evenfield-record');
  await expect(record.getByText('1/125 s, f/5.6, ISO 100, 85 mm')).toBeVisible(); // what is asked for of its notes is there
  expect(personalWordsIn(Buffer.from(await wholePage(page)))).toEqual([]);
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.emulateMedia({ media: null });
  for (const what of ['Save the reading', 'Save the cells', 'Save the correction profile'])
    expect(personalWordsIn(await saved(page, what)), what).toEqual([]);
  expect(personalWordsIn(gunzipSync(await saved(page, 'Save the whole job')))).toEqual([]);
});

test('a corrected frame notes what its source does, or no owner, place and serial number where that is chosen', async ({
  page,
}) => {
  await openBench(page);
  const frame = await personalFrame('frame.jpg');
  await page.getByLabel('Choose a frame…').setInputFiles(frame);
  await waitForVerdict(page);
  await page.getByLabel('Choose frames to correct…').setInputFiles(frame);
  const correct = page.getByRole('button', { name: 'Correct this frame' });
  await expect(correct).toBeEnabled(A_READING);
  await expect(page.getByText(/with its owner, place and serial numbers where they are noted/)).toBeVisible();
  expect(personalWordsIn(await saved(page, 'Correct this frame'))).toContain('ZzOwn-owner');

  await page
    .getByRole('combobox', { name: 'What the corrected files note' })
    .selectOption('no owner, place or serial number');
  await expect(page.getByText(/serial numbers and the maker’s own note are left out/)).toBeVisible();
  await expect(correct).toBeEnabled(A_READING);
  const file = await saved(page, 'Correct this frame');
  expect(file.length).toBeGreaterThan(100_000);
  expect(personalWordsIn(file)).toEqual([]);
});
