import { writeLargeJpeg } from './large-jpeg.ts';
import { expect, openBench, test, waitForVerdict } from './open-bench.ts';

test('a large JPEG is seen in a coarse map, marked as such, until its measured map takes the place', async ({
  page,
}, testInfo) => {
  const path = await writeLargeJpeg(testInfo.outputPath('large-frame.jpg'));
  await openBench(page);
  await page.evaluate(() => {
    const bench = document.querySelector('evenfield-bench')!;
    const seen: { at: number; words: string }[] = [];
    Object.assign(window, { seen });
    let startedAt = 0;
    document.addEventListener('evenfield-progress', () => {
      startedAt ||= performance.now();
      requestAnimationFrame(() => {
        const status = bench.shadowRoot!.querySelector('evenfield-status')!.shadowRoot!;
        const words = status.querySelector('evenfield-first-look')?.shadowRoot?.querySelector('figcaption');
        if (words) seen.push({ at: performance.now() - startedAt, words: words.textContent! });
      });
    });
    document.addEventListener('evenfield-reading', () => {
      seen.push({ at: performance.now() - startedAt, words: 'read' });
    });
  });
  const look = page.getByRole('figure').filter({ hasText: 'First look, coarse' });
  await page.getByLabel('Choose a frame…').setInputFiles(path);
  await expect(look).toBeVisible();
  await waitForVerdict(page);
  await expect(look).toHaveCount(0);
  const seen = await page.evaluate(
    () => (window as unknown as { seen: { at: number; words: string }[] }).seen,
  );
  expect(seen[0]!.words).toMatch(/^First look, coarse: about \d\.\d\u00a0stops?/);
  const readAt = seen.find(({ words }) => words === 'read')!.at;
  console.log(
    `measured: 24 megapixels, first look on the page after ${Math.round(seen[0]!.at)} ms, read after ${Math.round(readAt)} ms`,
  );
  expect(seen[0]!.at).toBeLessThan(readAt / 2);
});
