import { expect, type Page, test } from '@playwright/test';
import { jpegFile } from './bench-files.ts';
import { openEngine, timeReading } from './engine-beside-page.ts';
import { type Contenders, interleaved, median, ROUNDS, report } from './timed-rounds.ts';

const MEGAPIXELS = [6, 12, 24, 60, 100];

test('how the cost of reading a JPEG grows from 6 to 100 megapixels', async ({ browser }) => {
  const contenders: Contenders = {};
  const pages: Page[] = [];
  for (const megapixels of MEGAPIXELS) {
    const page = await browser.newPage();
    pages.push(page);
    const path = await jpegFile(megapixels, '4:2:0').path();
    await openEngine(page, path);
    contenders[`${megapixels} MP`] = async () => {
      const { whole, begins } = await timeReading(page, path);
      return { [`${megapixels} MP`]: whole, [`${megapixels} MP, pixels alone`]: begins.fitting! };
    };
  }
  const times = await interleaved(contenders);
  for (const page of pages) await page.close();
  report('JPEG 4:2:0 from 6 to 100 MP, whole readings', times);
  for (const [what, ending] of [
    ['whole reading', ''],
    ['bytes to measured cells', ', pixels alone'],
  ] as const) {
    const slope = exponent(MEGAPIXELS.map((mp) => [mp, median(times[`${mp} MP${ending}`]!)]));
    console.log(
      `    the time of the ${what} grows with the pixels to the power of ${slope.toFixed(2)} (1: linear)`,
    );
  }
  expect(times['100 MP']).toHaveLength(ROUNDS);
});

/** Slope of the straight line by least squares through the logarithms. */
function exponent(points: readonly (readonly [number, number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const [meanX, meanY] = [0, 1].map((i) => logs.reduce((sum, log) => sum + log[i]!, 0) / logs.length);
  const over = logs.reduce((sum, [x, y]) => sum + (x - meanX!) * (y - meanY!), 0);
  return over / logs.reduce((sum, [x]) => sum + (x - meanX!) ** 2, 0);
}
