import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

test.use({ hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 }, deviceScaleFactor: 3 });

/** WCAG 2.2, success criterion 2.5.8, level AA, in CSS pixels. */
const LEAST_PX = 24;

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A finger put down, moved over the other places and, unless it is to stay, lifted. */
async function drag(
  page: Page,
  [first, ...rest]: readonly Point[],
  whileDown?: () => Promise<void>,
): Promise<void> {
  const touch = await page.context().newCDPSession(page);
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [first!] });
  for (const place of rest)
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [place] });
  await whileDown?.();
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

/** Everything that can be pressed and is smaller than it should be either way: a line for each. */
function smallTargets(page: Page): Promise<{ looked: number; small: string[] }> {
  return page.evaluate((least) => {
    let looked = 0;
    const small: string[] = [];
    const look = (root: Document | ShadowRoot) => {
      for (const element of root.querySelectorAll('*')) {
        if (element.shadowRoot) look(element.shadowRoot);
        if (
          !element.matches(
            'button, select, textarea, summary, input, a[href], [role="slider"], [tabindex="0"]',
          )
        )
          continue;
        if (element.matches('[hidden], [type="hidden"]') || !element.checkVisibility()) continue;
        const { width, height } = (element.closest('label') ?? element).getBoundingClientRect();
        looked++;
        if (width < least || height < least)
          small.push(
            `${element.localName} "${element.getAttribute('aria-label') ?? element.textContent?.trim()}" ${width.toFixed(1)} × ${height.toFixed(1)}`,
          );
      }
    };
    look(document);
    return { looked, small };
  }, LEAST_PX);
}

const scrolled = (page: Page) => page.evaluate(() => [scrollX, scrollY]);

test('a tap on the map reads out that spot', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const map = page.getByRole('application');
  await map.scrollIntoViewIfNeeded();
  const box = (await map.boundingBox())!;
  const spot = page.getByRole('status', { name: 'At the spot' });
  await map.tap({ position: { x: box.width * 0.25, y: box.height * 0.75 } });
  await expect(spot).toContainText(/^2[4-6]\s% across, 7[3-7]\s% down/);
  await map.tap({ position: { x: box.width * 0.7, y: box.height * 0.3 } });
  await expect(spot).toContainText(/^(69|7[01])\s% across, (2[89]|3[0-2])\s% down/);
});

test('whatever can be pressed is at least 24 × 24 px', async ({ page }) => {
  await openBench(page);
  await expect(page.getByRole('heading', { name: 'Samples to try' })).toBeVisible();
  await page.getByText('Size of the light, camera and room to move').click();
  const first = await smallTargets(page);
  expect(first.small).toEqual([]);
  expect(first.looked).toBeGreaterThan(20);

  await chooseSample(page, 'Room spill');
  await chooseSample(page, 'Sheet lit off centre');
  await page.getByRole('radio', { name: 'Done', exact: true }).first().check();
  await page.getByRole('combobox', { name: 'Yardstick' }).selectOption('a limit of my own');
  const report = await smallTargets(page);
  expect(report.small).toEqual([]);
  expect(report.looked).toBeGreaterThan(45);

  await page.getByRole('button', { name: 'Save the reading' }).evaluate((button) => {
    button.style.cssText = 'min-height: 0; height: 20px; padding: 0';
  });
  expect((await smallTargets(page)).small).toEqual([
    expect.stringMatching(/^button "Save the reading" .* × 20\.0$/),
  ]);
});

test('a finger on a corner of the region drags it, and the page stays where it is', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const verdict = (await page.locator('.verdict').boundingBox())!;
  const words = { x: verdict.x + 20, y: verdict.y + 20 };
  const atTop = await scrolled(page);
  await drag(
    page,
    [0, 20, 60, 120].map((up) => ({ x: words.x, y: words.y - up })),
  );
  await expect.poll(() => scrolled(page), 'over plain words such a finger scrolls').not.toEqual(atTop);

  const corner = page.getByRole('slider', { name: 'Bottom right corner' });
  await corner.scrollIntoViewIfNeeded();
  await page.evaluate(() => scrollBy(0, 120)); // there is page left to scroll either way
  const from = (await corner.boundingBox())!;
  const map = (await page.getByRole('application').boundingBox())!;
  const start = { x: from.x + from.width / 2, y: from.y + from.height / 2 };
  const before = await scrolled(page);
  const steps = [0, 0.1, 0.2, 0.3, 0.4].map((share) => ({
    x: start.x - share * map.width,
    y: start.y - share * map.height,
  }));
  await drag(page, steps, async () => {
    expect(await scrolled(page), 'while the finger is down').toEqual(before);
  });
  await expect
    .poll(() =>
      page.evaluate(
        () => (document.querySelector('evenfield-bench') as EvenfieldBench).takes[0]!.reading.region.right,
      ),
    )
    .toBeLessThan(0.65);
  const { right, bottom } = await page.evaluate(
    () => (document.querySelector('evenfield-bench') as EvenfieldBench).takes[0]!.reading.region,
  );
  expect(Math.abs(right - 0.6)).toBeLessThan(0.03);
  expect(Math.abs(bottom - 0.6)).toBeLessThan(0.03);
});

test('light and tint, a move’s answer and an earlier take are a tap each', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Room spill');
  await chooseSample(page, 'Sheet lit off centre');
  await page.getByText('Tint', { exact: true }).tap();
  await expect(page.getByRole('img', { name: 'Map of the tint' })).toBeVisible();
  await page.getByText('Not done', { exact: true }).first().tap();
  await expect(page.getByRole('radio', { name: 'Not done' }).first()).toBeChecked();
  await page.getByRole('button', { name: /^Take 1/ }).tap();
  await expect(page.getByRole('button', { name: /^Take 1/ })).toHaveAttribute('aria-current', 'true');
});
