import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { largeDng } from '../synthetic/large-dng.ts';
import { DIST } from './built-site.ts';
import { A_READING, expect, waitForVerdict } from './open-bench.ts';

/** Reads a frame of each kind that is decoded by other means: a JPEG, a TIFF of 16 bits, a camera's raw file. */
export async function readEachKind(page: Page): Promise<void> {
  const tiff = sharp(join(DIST, 'nearly-perfect.png'), { ignoreIcc: true }).toColourspace('rgb16');
  await readFrame(page, 'Choose a frame…', 'blank.jpg', readFileSync(join(DIST, 'sheet-off-centre.jpg')));
  await readFrame(
    page,
    'Read another frame…',
    'blank.tif',
    await tiff.tiff({ compression: 'lzw' }).toBuffer(),
  );
  await readFrame(page, 'Read another frame…', 'blank.dng', largeDng(600, 400));
  await expect(page.locator('.verdict')).toContainText('Within 1.2 stops across the frame');
}

async function readFrame(page: Page, label: string, name: string, bytes: Uint8Array): Promise<void> {
  await page.getByLabel(label).setInputFiles({ name, mimeType: '', buffer: Buffer.from(bytes) });
  await expect(page.locator('evenfield-report').getByText(name).first()).toBeVisible(A_READING);
  await waitForVerdict(page);
}

/** Saves the profile of the newest take, and corrects a raw frame by it. */
export async function correctOne(page: Page): Promise<void> {
  const profile = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the correction profile' }).click();
  expect((await profile).suggestedFilename()).toBe('blank.profile.json');
  const subject = { name: 'tumblers.dng', mimeType: '', buffer: Buffer.from(largeDng(600, 400, 1, 6)) };
  await page.getByLabel('Choose frames to correct…').setInputFiles(subject);
  await expect(page.getByText(/^Corrected\. Background within/)).toBeVisible(A_READING);
  const corrected = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Correct this frame' }).click();
  const { width, height } = await sharp(await (await corrected).path()).metadata();
  expect([width, height]).toEqual([600, 400]);
}
