import type { Page } from '@playwright/test';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

const LEAST_TEXT_PX = 12;

/** A text of the map, its sections or the cast plane as the screen shows it, in px of the page. */
interface ShownText {
  readonly text: string;
  readonly part: string;
  readonly sizePx: number;
  readonly corners: readonly (readonly [x: number, y: number])[];
}

/** Every drawn text, its corners by the glyphs' own widths; a fifth of the height, above and below, is no ink. */
function shownTexts(page: Page): Promise<ShownText[]> {
  return page.evaluate(() => {
    const found: ShownText[] = [];
    const look = (root: Document | ShadowRoot, part: string) => {
      for (const element of root.querySelectorAll('*')) {
        if (element.shadowRoot) look(element.shadowRoot, element.localName);
        if (!(element instanceof SVGTextElement)) continue;
        const { x, y, width, height } = element.getBBox();
        const toScreen = element.getScreenCTM()!;
        const [top, bottom] = [y + height * 0.2, y + height * 0.8];
        const corners = [
          [x, top],
          [x + width, top],
          [x + width, bottom],
          [x, bottom],
        ].map(([px, py]) => {
          const point = new DOMPoint(px, py).matrixTransform(toScreen);
          return [point.x + scrollX, point.y + scrollY] as const;
        });
        const scale = Math.hypot(toScreen.a, toScreen.b);
        const sizePx = Number.parseFloat(getComputedStyle(element).fontSize) * scale;
        found.push({ text: element.textContent!, part, sizePx, corners });
      }
    };
    look(document, 'page');
    return found.filter(({ part }) =>
      ['evenfield-map-drawing', 'evenfield-section', 'evenfield-cast'].includes(part),
    );
  });
}

/** Whether two turned rectangles overlap, by the separating-axis theorem. */
function overlap(a: ShownText, b: ShownText): boolean {
  for (const { corners } of [a, b])
    for (const [from, to] of [
      [0, 1],
      [1, 2],
    ] as const) {
      const [dx, dy] = [corners[to]![0] - corners[from]![0], corners[to]![1] - corners[from]![1]];
      const along = (each: ShownText) => each.corners.map(([x, y]) => x * dx + y * dy);
      const [spanA, spanB] = [along(a), along(b)];
      if (Math.max(...spanA) <= Math.min(...spanB) || Math.max(...spanB) <= Math.min(...spanA)) return false;
    }
  return true;
}

for (const [width, height] of [
  [1440, 900],
  [390, 844],
] as const)
  for (const textSize of ['100%', '200%'])
    test(`at ${width} px with text of ${textSize} no drawn text is small, cut or on another, and nothing scrolls sideways`, async ({
      page,
    }) => {
      await page.setViewportSize({ width, height });
      let [count, least] = [0, Number.POSITIVE_INFINITY];
      for (const sample of ['One side dark and cool', 'Sheet yellowed on one side', 'Clipped']) {
        await openBench(page);
        await page.evaluate((size) => {
          document.documentElement.style.fontSize = size;
        }, textSize);
        await chooseSample(page, sample);
        for (const mode of ['Light', 'Tint']) {
          await page.getByRole('radio', { name: mode, exact: true }).check();
          await expect(page.getByRole('img', { name: `Map of the ${mode.toLowerCase()}` })).toBeVisible();
          const texts = await shownTexts(page);
          expect(texts.length).toBeGreaterThan(6);
          texts.forEach((text, i) => {
            count++;
            least = Math.min(least, text.sizePx);
            for (const [x] of text.corners)
              expect(x >= 0 && x <= width, `${text.text} is not cut`).toBe(true);
            for (const other of texts.slice(0, i))
              expect(overlap(text, other), `${text.text} lies on ${other.text} (${sample}, ${mode})`).toBe(
                false,
              );
          });
          const [content, window] = await page.evaluate(() => [
            document.documentElement.scrollWidth,
            document.documentElement.clientWidth,
          ]);
          expect(content).toBeLessThanOrEqual(window!);
        }
      }
      console.log(
        `measured: ${count} drawn texts at ${width} px, text of ${textSize}: the smallest ${least.toFixed(1)} px, none on another or cut`,
      );
      expect(least).toBeGreaterThanOrEqual(LEAST_TEXT_PX - 0.01);
    });

test('nothing below the map moves while the spot moves or the map changes', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await chooseSample(page, 'Room spill');
  const end = () =>
    page.locator('evenfield-map').evaluate((map) => Math.round(map.getBoundingClientRect().height * 10) / 10);
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await page.waitForTimeout(1500); // the other map is drawn in advance
  const before = await end();
  const words = new Set<string>();
  const map = page.getByRole('application');
  const { width, height } = (await map.boundingBox())!;
  for (const [across, down] of [
    [0.15, 0.2],
    [0.3, 0.25],
    [0.55, 0.4],
    [0.85, 0.2],
    [0.8, 0.8],
    [0.2, 0.75],
  ] as const) {
    await map.hover({ position: { x: width * across, y: height * down } });
    words.add((await page.getByRole('status', { name: 'At the spot' }).textContent())!);
    expect(await end()).toBe(before);
  }
  expect(words.size).toBeGreaterThan(3);
  await page.getByRole('radio', { name: 'Tint' }).check();
  await expect(page.getByRole('img', { name: 'Map of the tint' })).toBeVisible();
  expect(await end()).toBe(before);
});
