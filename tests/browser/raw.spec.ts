import { writeFileSync } from 'node:fs';
import sharp from 'sharp';
import { largeDng } from '../synthetic/large-dng.ts';
import { A_READING, chooseSample, expect, openBench, test, waitForVerdict } from './open-bench.ts';

const isLibraw = (url: string) => url.includes('/libraw/');

test('a raw file is read through the chooser; its decoder is fetched then, and not before', async ({
  page,
  watch,
}, testInfo) => {
  const path = testInfo.outputPath('blank.dng');
  writeFileSync(path, largeDng(1500, 1000));
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  expect(watch.requests.filter(isLibraw)).toEqual([]);
  await page.evaluate(() => {
    const phases = new Set<string>();
    Object.assign(window, { phases });
    document.addEventListener('evenfield-progress', (event) =>
      phases.add((event as CustomEvent).detail.phase),
    );
  });
  await page.getByLabel('New set-up…').setInputFiles(path);
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toBeVisible();
  await waitForVerdict(page);
  const names = watch.requests.filter(isLibraw).map((url) => url.split('/libraw/')[1]);
  expect(names).toEqual(['libraw.js', 'libraw.wasm']);
  const phases = await page.evaluate(() => [...(window as unknown as { phases: Set<string> }).phases]);
  expect(phases).toEqual(expect.arrayContaining(['opening', 'decoding', 'averaging']));
  await expect(page.locator('.verdict')).toContainText('Within 1.2 stops across the frame');
});

test('a raw frame is corrected by a raw blank, and comes as a TIFF of its whole size', async ({
  page,
  watch,
}, testInfo) => {
  const [path, subject] = [testInfo.outputPath('blank.dng'), testInfo.outputPath('tumblers.dng')];
  writeFileSync(path, largeDng(1500, 1000));
  writeFileSync(subject, largeDng(1500, 1000, 1, 6));
  await openBench(page);
  await page.getByLabel('Choose a frame…').setInputFiles(path);
  await waitForVerdict(page);
  await page.getByLabel('Choose frames to correct…').setInputFiles(subject);
  await expect(page.getByRole('img', { name: 'Corrected', exact: true })).toBeVisible(A_READING);
  await expect(page.getByText(/^Trying it on/)).toHaveCount(0, A_READING);
  await expect(page.getByText(/^Corrected\. Background within/)).toBeVisible();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Correct this frame' }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toBe('tumblers.corrected.tif');
  const { data, info } = await sharp(await download.path())
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  expect([info.width, info.height, info.channels]).toEqual([1500, 1000, 3]);
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  // mean green light of 100-pixel blocks, by the curve of the wide space that it is written in
  const levels = [0, 7, 14].map((block) => {
    let sum = 0;
    for (let y = 450; y < 550; y++)
      for (let x = block * 100; x < block * 100 + 100; x++)
        sum += (codes[3 * (y * info.width + x) + 1]! / 65535) ** 1.8;
    return Math.log2(sum / 10_000);
  });
  const spreadEv = Math.max(...levels) - Math.min(...levels);
  console.log(
    `measured: a raw frame corrected in the browser: ${spreadEv.toFixed(4)} EV from left to right (1.2 as shot)`,
  );
  expect(spreadEv).toBeLessThan(0.02);
  expect(watch.requests.filter(isLibraw).length).toBeGreaterThan(2); // a worker of its own each time
});
