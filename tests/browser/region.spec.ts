import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { A_READING, chooseSample, expect, judgeByAnother, openBench, takeIds, test } from './open-bench.ts';

function region(page: Page) {
  return page.evaluate(
    () => (document.querySelector('evenfield-bench') as EvenfieldBench).takes.at(-1)!.reading.region,
  );
}

const handle = (page: Page, name: string) => page.getByRole('slider', { name });

/** A side of a sample's frame, about to be moved by keys. */
async function focusedSide(page: Page, name: string) {
  await openBench(page);
  await chooseSample(page, 'Light too close');
  const side = handle(page, name);
  await side.focus();
  return side;
}

test('a corner dragged by the pointer reads that part of the same frame, as the same take', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await handle(page, 'Bottom right corner').scrollIntoViewIfNeeded();
  const corner = (await handle(page, 'Bottom right corner').boundingBox())!;
  const map = (await page.getByRole('application').boundingBox())!;
  await page.mouse.move(corner.x + corner.width / 2, corner.y + corner.height / 2);
  await page.mouse.down();
  await page.mouse.move(map.x + map.width * 0.9, map.y + map.height * 0.9, { steps: 4 });
  await page.mouse.move(map.x + map.width * 0.6, map.y + map.height * 0.7, { steps: 4 });
  await page.mouse.up();
  await expect.poll(async () => (await region(page)).right, A_READING).toBeLessThan(0.7);
  const { left, top, right, bottom } = await region(page);
  expect([left, top]).toEqual([0, 0]);
  expect(Math.abs(right - 0.6)).toBeLessThan(0.01);
  expect(Math.abs(bottom - 0.7)).toBeLessThan(0.01);
  expect(await takeIds(page)).toEqual(['take-1']);
  const part = (await page.getByRole('application').boundingBox())!;
  expect(Math.abs(part.width / map.width - 0.6)).toBeLessThan(0.02);

  await page.getByRole('button', { name: 'Read the whole frame again' }).click();
  await expect.poll(() => region(page), A_READING).toEqual({ left: 0, top: 0, right: 1, bottom: 1 });
  await expect(page.getByRole('button', { name: 'Read the whole frame again' })).toHaveCount(0);
});

test('the arrow keys move a side by one percent, with Shift by five, and say where it stands', async ({
  page,
}) => {
  const side = await focusedSide(page, 'Left side');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowRight');
  await expect(side).toHaveAttribute('aria-valuetext', '6 % across');
  await expect(side).toHaveAttribute('aria-valuenow', '6');
  await expect.poll(() => region(page), A_READING).toEqual({ left: 0.06, top: 0, right: 1, bottom: 1 });
  await expect(side).toBeFocused();
});

test('a side moved on while the part asked for is being read is asked for in its turn', async ({ page }) => {
  const side = await focusedSide(page, 'Left side');
  const asked = page.evaluate(
    () =>
      new Promise<void>((done) =>
        document.addEventListener('evenfield-progress', () => done(), { once: true }),
      ),
  );
  await page.keyboard.press('ArrowRight');
  await asked;
  const read = page.evaluate(
    () =>
      new Promise<void>((done) =>
        document.addEventListener('evenfield-reading', () => done(), { once: true }),
      ),
  );
  // a key is pressed again and again until the part is there, as long as that takes
  let isRead = false;
  void read.then(() => {
    isRead = true;
  });
  await page.keyboard.press('Shift+ArrowRight');
  for (let i = 0; !isRead; i++) await page.keyboard.press(i % 2 === 0 ? 'ArrowRight' : 'ArrowLeft');
  const moved = await side.getAttribute('aria-valuenow');
  expect(['6', '7']).toContain(moved);
  await expect.poll(async () => Math.round((await region(page)).left * 100), A_READING).toBe(Number(moved));
});

test('a side asked for again while the part before is being read goes on from where it was put', async ({
  page,
}) => {
  const side = await focusedSide(page, 'Left side');
  for (const key of ['ArrowRight', 'Enter', 'Shift+ArrowRight', 'Enter']) await page.keyboard.press(key);
  await page.waitForTimeout(150); // the first reading has been cancelled, and that was told
  await page.keyboard.press('ArrowRight');
  await expect(side).toHaveAttribute('aria-valuenow', '7');
  await expect.poll(async () => Math.round((await region(page)).left * 100), A_READING).toBe(7);
});

test('Escape gives a moved side back', async ({ page }) => {
  const side = await focusedSide(page, 'Top side');
  await page.keyboard.press('Shift+ArrowDown');
  await expect(side).toHaveAttribute('aria-valuenow', '5');
  await page.keyboard.press('Escape');
  await expect(side).toHaveAttribute('aria-valuenow', '0');
  await page.waitForTimeout(1000); // longer than the pause after which a part would be read
  expect(await region(page)).toEqual({ left: 0, top: 0, right: 1, bottom: 1 });
});

test('a side that is being dragged stays where it is when the frame is judged by another limit', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const side = handle(page, 'Right side');
  await side.scrollIntoViewIfNeeded();
  const from = (await side.boundingBox())!;
  const [x, y] = [from.x + from.width / 2, from.y + from.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 120, y, { steps: 4 });
  await expect(side).not.toHaveAttribute('aria-valuenow', '100');
  const dragged = await side.getAttribute('aria-valuenow');
  await judgeByAnother(page);
  await expect(side).toHaveAttribute('aria-valuenow', dragged!);
  await page.mouse.up();
  await expect
    .poll(async () => Math.round((await region(page)).right * 100), A_READING)
    .toBe(Number(dragged));
});

test.describe('on a screen to be touched', () => {
  test.use({ hasTouch: true, viewport: { width: 390, height: 844 }, deviceScaleFactor: 3 });

  /** Drags a finger from the first place over the others. */
  async function drag(page: Page, places: readonly { x: number; y: number }[]): Promise<void> {
    const touch = await page.context().newCDPSession(page);
    const [first, ...rest] = places;
    await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [first!] });
    for (const place of rest)
      await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [place] });
    await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  }

  test('a finger drags a side, and over the map itself it still scrolls the page', async ({ page }) => {
    await openBench(page);
    await chooseSample(page, 'Sheet lit off centre');
    const side = handle(page, 'Right side');
    await side.scrollIntoViewIfNeeded();
    const from = (await side.boundingBox())!;
    const map = (await page.getByRole('application').boundingBox())!;
    const y = from.y + from.height / 2;
    await drag(
      page,
      [map.x + map.width, map.x + map.width * 0.9, map.x + map.width * 0.75].map((x) => ({ x, y })),
    );
    await expect.poll(async () => (await region(page)).right, A_READING).toBeLessThan(0.8);

    const before = await page.evaluate(() => scrollY);
    const x = map.x + map.width * 0.3;
    await drag(
      page,
      [0, -20, -60, -120].map((by) => ({ x, y: y + by })),
    );
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(before + 40);
  });
});
