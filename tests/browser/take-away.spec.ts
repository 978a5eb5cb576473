import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

async function savedFile(page: Page, button: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

test('the profile’s gains are saved as a 16-bit picture of the frame’s size, and its ramps as text', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const gains = await savedFile(page, 'Save its gains as a picture');
  expect(gains.name).toBe('sheet-off-centre.gains.tif');
  const [picture, frame] = [
    await sharp(gains.bytes).metadata(),
    await sharp('samples/sheet-off-centre.jpg').metadata(),
  ];
  expect(picture).toMatchObject({
    format: 'tiff',
    depth: 'ushort',
    channels: 3,
    width: frame.width,
    height: frame.height,
  });
  const ramp = await savedFile(page, 'Save its ramps in figures');
  expect(ramp.name).toBe('sheet-off-centre.ramp.txt');
  expect(ramp.bytes.toString()).toMatch(/Straight ramps of the light in sheet-off-centre\.jpg/);
  expect(ramp.bytes.toString()).toMatch(/stops: +\+\d\.\d\d/);
});
