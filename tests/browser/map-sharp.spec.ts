import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

const DENSITY = 2;
/** Of the sample's grid. */
const COLUMNS = 75;
test.use({ deviceScaleFactor: DENSITY });

interface Grey {
  readonly width: number;
  readonly height: number;
  /** 0 to 255, row by row, of the screen's own pixels. */
  readonly codes: Buffer;
}

/** What the screen shows of the map, pixel by pixel; the handles are taken off, for they stand on its edge. */
async function pictureOf(page: Page): Promise<Grey> {
  const png = await page.locator('evenfield-map-drawing').screenshot();
  const { data, info } = await sharp(png).greyscale().raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, codes: data };
}

async function hide(page: Page, selector: string): Promise<void> {
  await page.locator('evenfield-map-frame').evaluate((frame, hidden) => {
    const drawing = frame.shadowRoot!.querySelector('evenfield-map-drawing')!;
    for (const root of [frame.shadowRoot!, drawing.shadowRoot!])
      for (const element of root.querySelectorAll<HTMLElement>(hidden)) element.style.visibility = 'hidden';
  }, selector);
}

test('the picture is as many pixels as the screen has, and smooth from each to the next', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'One side dark and cool');
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await hide(page, 'svg, evenfield-map-region');
  const box = (await page.locator('evenfield-map-drawing').boundingBox())!;
  const { width, height, codes } = await pictureOf(page);
  expect(width).toBeGreaterThanOrEqual(Math.floor(box.width) * DENSITY);
  const row = Math.round(height / 2) * width;
  // in this third greys fall by more codes than there are cells: drawn as blocks they would step by two somewhere
  const [from, to] = [Math.round((width * 2) / 3), width - 4];
  const steepestStep = (shown: Buffer) => {
    let steepest = 0;
    for (let x = 4; x < to; x++)
      steepest = Math.max(steepest, Math.abs(shown[row + x]! - shown[row + x - 1]!));
    return steepest;
  };
  const steepest = steepestStep(codes);
  const fall = codes[row + from]! - codes[row + to]!;
  const cells = ((to - from) / width) * COLUMNS;
  console.log(
    `measured: at ${DENSITY} screen pixels to one, ${width} × ${height} of them hold the map; greys step by ${steepest} of 255 at most ` +
      `from pixel to pixel, where they fall by ${fall} over ${cells.toFixed(0)} cells too`,
  );
  expect(fall).toBeGreaterThan(1.2 * cells);
  expect(steepest).toBe(1);

  await page.locator('evenfield-map-drawing').evaluate((drawing) => {
    drawing.shadowRoot!.querySelector('canvas')!.style.imageRendering = 'pixelated';
  });
  expect(steepestStep((await pictureOf(page)).codes), 'planted blocks are seen').toBeGreaterThan(1);
});

test('lines go from paper to ink within one pixel of the page, as only a line drawn at the screen’s density does', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'One side dark and cool');
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await hide(page, 'evenfield-map-region, text, .crop, .gradient, .head, .contour, circle, g');
  const { width, height, codes } = await pictureOf(page);
  const row = Math.round(height / 2) * width;
  // the bold line is the only ink left, and runs nearly upright here
  let darkest = 0;
  for (let x = 0; x < width; x++) if (codes[row + x]! < codes[row + darkest]!) darkest = x;
  const paper = codes[row + darkest - 20]!;
  const ink = codes[row + darkest]!;
  const between = [];
  for (let x = darkest - 20; x <= darkest + 20; x++) {
    const part = (paper - codes[row + x]!) / (paper - ink);
    if (part > 0.1 && part < 0.9) between.push(x);
  }
  console.log(
    `measured: the bold line has ${between.length} half-dark pixels of the screen across its two edges`,
  );
  expect(paper - ink).toBeGreaterThan(120);
  expect(between.length).toBeLessThanOrEqual(2 * DENSITY);
  const vectors = await page
    .locator('evenfield-map-drawing')
    .evaluate((drawing) => drawing.shadowRoot!.querySelectorAll('svg text, svg path.contour').length);
  expect(vectors).toBeGreaterThan(10);
});
