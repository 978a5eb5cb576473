import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import type { EvenfieldMap } from '../../src/screen/evenfield-map.ts';
import type { EvenfieldMapDrawing } from '../../src/screen/evenfield-map-drawing.ts';
import type { EvenfieldMapFrame } from '../../src/screen/evenfield-map-frame.ts';
import type { EvenfieldMapRegion } from '../../src/screen/evenfield-map-region.ts';
import { fullGridFrame } from './full-grid-frame.ts';
import { expect, openBench, test, waitForVerdict } from './open-bench.ts';

const LONGEST_MS = 50;
const TIMES = 11;

/** What the page holds for these measurements. */
interface Watched extends Window {
  map: EvenfieldMap;
  frame: EvenfieldMapFrame;
  drawing: EvenfieldMapDrawing;
  region: EvenfieldMapRegion;
  /** From now until the condition holds and the page is laid out anew, in ms. */
  untilDrawn(isDrawn: () => boolean): Promise<number>;
}

/** A report on a full grid of cells, at rest; its parts within reach of the page's own scripts. */
async function openFullMap(page: Page): Promise<void> {
  await openBench(page);
  await page
    .getByLabel('Choose a frame…')
    .setInputFiles({ name: 'steep-and-tinted.png', mimeType: 'image/png', buffer: await fullGridFrame() });
  await waitForVerdict(page);
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await page.waitForTimeout(1500); // the other map is drawn in advance
  const grid = await page.evaluate(() => {
    const watched = window as unknown as Watched;
    const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    const inside = <T extends Element>(host: Element, tag: string) =>
      host.shadowRoot!.querySelector(tag) as T;
    watched.map = inside(inside(bench, 'evenfield-report'), 'evenfield-map');
    watched.frame = inside(watched.map, 'evenfield-map-frame');
    watched.drawing = inside(watched.frame, 'evenfield-map-drawing');
    watched.region = inside(watched.frame, 'evenfield-map-region');
    watched.untilDrawn = async (isDrawn) => {
      const start = performance.now();
      for (;;) {
        for (const part of [watched.map, watched.frame, watched.drawing]) await part.updateComplete;
        if (isDrawn()) {
          document.documentElement.getBoundingClientRect(); // lays the page out
          return performance.now() - start;
        }
        if (performance.now() - start > 5000) throw new Error('not drawn within five seconds');
        await new Promise<void>((resolve) => {
          const { port1, port2 } = new MessageChannel(); // a task, without a timer's least delay
          port1.onmessage = () => {
            port1.close();
            resolve();
          };
          port2.postMessage(null);
        });
      }
    };
    return bench.takes.at(-1)!.reading.grid;
  });
  expect(grid).toEqual({ columns: 96, rows: 64 });
}

/** The middle of the times, printed with the longest; each in ms. */
function median(what: string, times: readonly number[]): number {
  const inOrder = [...times].sort((a, b) => a - b);
  const middle = inOrder[Math.floor(inOrder.length / 2)]!;
  console.log(
    `measured: ${what} is drawn in ${middle.toFixed(1)} ms (median of ${times.length}; longest ${inOrder.at(-1)!.toFixed(1)} ms)`,
  );
  expect(times.length).toBeGreaterThanOrEqual(9);
  return middle;
}

// another program at work can only lengthen a time: a machine that is busy just then is given two more tries
test.describe.configure({ retries: 2 });

test('the switch between light and tint draws the other map within 50 ms', async ({ page }) => {
  await openFullMap(page);
  const times = await page.evaluate(async (count) => {
    const { map, drawing, untilDrawn } = window as unknown as Watched;
    const radios = [...map.shadowRoot!.querySelectorAll('input')];
    const found: number[] = [];
    for (let i = 0; i < count; i++) {
      const before = drawing.plot;
      const isDrawn = untilDrawn(
        () => drawing.plot !== before && drawing.name.includes(i % 2 ? 'light' : 'tint'),
      );
      radios[i % 2 ? 0 : 1]!.click();
      found.push(await isDrawn);
    }
    return found;
  }, TIMES);
  expect(median('the other map', times)).toBeLessThan(LONGEST_MS);
});

test('an arrow key moves the spot, its figures and both sections within 50 ms', async ({ page }) => {
  await openFullMap(page);
  const times = await page.evaluate(async (count) => {
    const { map, frame, drawing, untilDrawn } = window as unknown as Watched;
    const pointing = frame.shadowRoot!.querySelector('.pointing')!;
    /** All that has to change: figures, and a curve that runs through another row or column. */
    const shown = () => ({
      words: map.shadowRoot!.querySelector('.spot')!.textContent!,
      curves: [...frame.shadowRoot!.querySelectorAll('evenfield-section')]
        .map((section) => section.shadowRoot!.querySelector('.curve')!.getAttribute('d')!)
        .join(),
    });
    const found: number[] = [];
    for (let i = 0; i < count; i++) {
      const before = { spot: drawing.spot, ...shown() };
      const isDrawn = untilDrawn(() => {
        const { words, curves } = shown();
        return drawing.spot !== before.spot && words !== before.words && curves !== before.curves;
      });
      const key = i % 2 ? 'ArrowRight' : 'ArrowDown';
      pointing.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
      found.push(await isDrawn);
    }
    return found;
  }, TIMES);
  expect(median('the next spot', times)).toBeLessThan(LONGEST_MS);
});

test('another limit draws its bold line within 50 ms', async ({ page }) => {
  await openFullMap(page);
  const times = await page.evaluate(async (count) => {
    const { drawing, untilDrawn } = window as unknown as Watched;
    const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    const found: number[] = [];
    for (let i = 0; i < count; i++) {
      const limit = 0.25 + 0.03 * (i + 1);
      const isJudged = new Promise((resolve) => {
        bench.addEventListener('evenfield-reading', resolve, { once: true });
      });
      const isDrawn = untilDrawn(() =>
        drawing.plot.contours.lines.some(
          ({ level, isTolerance }) => isTolerance && Math.abs(level + limit) < 1e-9,
        ),
      );
      bench.tolerance = { ...bench.tolerance, measure: 'range', limit };
      found.push(await isDrawn);
      await isJudged;
      await new Promise((resolve) => setTimeout(resolve, 400)); // its own drawing is no part of the next time
    }
    return found;
  }, TIMES);
  expect(median('another limit', times)).toBeLessThan(LONGEST_MS);
});

test('a handle of the region follows a dragging pointer within 50 ms', async ({ page }) => {
  await openFullMap(page);
  const handle = page.getByRole('slider', { name: 'Bottom right corner' });
  await handle.scrollIntoViewIfNeeded();
  const { x, y, width, height } = (await handle.boundingBox())!;
  const [fromX, fromY] = [x + width / 2, y + height / 2];
  await page.mouse.move(fromX, fromY);
  await page.mouse.down();
  await page.evaluate(() => {
    const { region } = window as unknown as Watched;
    const found: number[] = [];
    (window as unknown as { found: number[] }).found = found;
    const outline = () => region.shadowRoot!.querySelector('.outline')!.getAttribute('width')!;
    let [start, before] = [0, outline()];
    window.addEventListener(
      'pointermove',
      () => {
        [start, before] = [performance.now(), outline()];
      },
      { capture: true },
    );
    window.addEventListener('pointermove', async () => {
      await region.updateComplete;
      document.documentElement.getBoundingClientRect(); // lays the page out
      if (outline() !== before) found.push(performance.now() - start);
    });
  });
  for (let i = 1; i <= TIMES; i++) await page.mouse.move(fromX - 6 * i, fromY - 4 * i);
  const times = await page.evaluate(() => (window as unknown as { found: number[] }).found);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  expect(median('the region dragged on', times)).toBeLessThan(LONGEST_MS);
});
