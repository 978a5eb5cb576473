import { violations } from './axe-violations.ts';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

for (const colorScheme of ['light', 'dark'] as const)
  for (const [width, height] of [
    [1440, 900],
    [390, 844],
  ] as const)
    test(`first screen, report and failure pass axe in ${colorScheme} at ${width} px, and nothing scrolls sideways`, async ({
      page,
    }) => {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height });
      await openBench(page);
      await expect(page.getByRole('heading', { name: 'Samples to try' })).toBeVisible();
      expect(await violations(page)).toEqual([]);
      await chooseSample(page, 'One side dark and cool');
      expect(await violations(page)).toEqual([]);
      await page
        .getByLabel('Read another frame…')
        .setInputFiles({ name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') });
      await expect(page.getByRole('alert')).not.toBeEmpty();
      expect(await violations(page)).toEqual([]);
      const [content, window] = await page.evaluate(() => [
        document.documentElement.scrollWidth,
        document.documentElement.clientWidth,
      ]);
      expect(content).toBeLessThanOrEqual(window!);
    });

test('everything around the frame is neutral grey: no colour in any style', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Tinted sheet');
  const coloured = await page.evaluate(() => {
    const found: string[] = [];
    const look = (root: Document | ShadowRoot) => {
      for (const element of root.querySelectorAll('*')) {
        const style = getComputedStyle(element);
        for (const name of ['color', 'backgroundColor', 'borderTopColor', 'fill', 'stroke'] as const) {
          const [r, g, b] = (style[name].match(/[\d.]+/g) ?? []).map(Number);
          if (style[name].startsWith('rgb') && (r !== g || g !== b))
            found.push(`${element.tagName} ${name} ${style[name]}`);
        }
        if (element.shadowRoot) look(element.shadowRoot);
      }
    };
    look(document);
    return [...new Set(found)];
  });
  expect(coloured).toEqual([]);
});
