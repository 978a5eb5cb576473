import { writeFileSync } from 'node:fs';
import { largeDng } from '../synthetic/large-dng.ts';
import { chooseSample, expect, openBench, test, waitForVerdict } from './open-bench.ts';

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
