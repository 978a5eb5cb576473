import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { expect, openBench, test, waitForVerdict } from './open-bench.ts';

const FRAME = readFileSync(new URL('../../samples/one-side-dark-and-cool.png', import.meta.url));

test('a TIFF, deflated in many strips or as LZW, reads as the same picture does as a PNG', async ({
  page,
}) => {
  const isDeep = (await sharp(FRAME).metadata()).depth === 'ushort';
  const tiff = (compression: 'deflate' | 'lzw') =>
    sharp(FRAME, { ignoreIcc: true })
      .toColourspace(isDeep ? 'rgb16' : 'srgb')
      .tiff({ compression, predictor: 'horizontal' })
      .toBuffer();
  const verdicts: (string | null)[] = [];
  for (const [name, buffer] of [
    ['blank.png', FRAME],
    ['deflated.tif', await tiff('deflate')],
    ['lzw.tif', await tiff('lzw')],
  ] as const) {
    await openBench(page);
    const mimeType = name.endsWith('png') ? 'image/png' : 'image/tiff';
    await page.getByLabel('Choose a frame…').setInputFiles({ name, mimeType, buffer });
    await waitForVerdict(page);
    verdicts.push(await page.locator('.verdict').textContent());
  }
  expect(verdicts[0]).toContain('stop');
  expect(verdicts[1]).toBe(verdicts[0]);
  expect(verdicts[2]).toBe(verdicts[0]);
});
