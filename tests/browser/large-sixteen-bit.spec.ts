import { mkdirSync, writeFileSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import { largeDng } from '../synthetic/large-dng.ts';
import { chooseSample, expect, openBench, test, waitForVerdict } from './open-bench.ts';
import { settledMegabytes, TIDY_FLAGS } from './renderer-memory.ts';

test.use({
  launchOptions: async ({ launchOptions }, use) =>
    use({ ...launchOptions, args: [...launchOptions.args!, ...TIDY_FLAGS] }),
});
test.setTimeout(120_000);

const WIDTH = 6000;
const HEIGHT = 4000;
/** A quarter of the frame's samples: what is held longer than a reading shows at once. */
const LEFT_MEGABYTES = 36;

let made: Sharp | null = null;

/** A light off centre in 16 bits, with noise. */
function largeFrame(): Sharp {
  if (made) return made.clone();
  const samples = new Uint16Array(WIDTH * HEIGHT * 3);
  let seed = 1;
  for (let y = 0, i = 0; y < HEIGHT; y++) {
    const down = (y / HEIGHT - 0.4) ** 2;
    for (let x = 0; x < WIDTH; x++) {
      const level = 52_000 - 36_000 * ((x / WIDTH - 0.45) ** 2 + down);
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) | 0;
      const noise = (seed >>> 23) - 256;
      samples[i++] = level + noise;
      samples[i++] = level + noise;
      samples[i++] = level - noise;
    }
  }
  made = sharp(samples, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } }).toColourspace('rgb16');
  return made.clone();
}

const FILES: readonly (readonly [name: string, write: (path: string) => Promise<unknown>])[] = [
  ['large.tif', (path) => largeFrame().tiff({ compression: 'lzw', predictor: 'horizontal' }).toFile(path)],
  ['large.png', (path) => largeFrame().png({ compressionLevel: 1 }).toFile(path)],
  ['large.dng', async (path) => writeFileSync(path, largeDng(WIDTH, HEIGHT))],
];

for (const [name, write] of FILES)
  test(`24 megapixels of 16 bits in ${name}: progress is shown, Cancel ends it at once, and what was held is given back`, async ({
    page,
    browser,
  }, testInfo) => {
    const path = testInfo.outputPath(name);
    mkdirSync(testInfo.outputDir, { recursive: true });
    await write(path);
    await openBench(page);
    await chooseSample(page, 'Nearly perfect');
    const base = await settledMegabytes(page, browser);
    await page.evaluate(() => {
      const told: { fractions: Set<number>; pressedAt?: number; toldAt?: number } = { fractions: new Set() };
      Object.assign(window, { told });
      window.addEventListener('pointerup', () => (told.pressedAt = performance.now()), { capture: true });
      document.addEventListener('evenfield-error', () => (told.toldAt = performance.now()));
      document.addEventListener('evenfield-progress', (event) => {
        const { phase, fraction } = (event as CustomEvent).detail;
        if (phase === 'decoding') told.fractions.add(fraction);
      });
    });
    const told = () =>
      page.evaluate(() => {
        const { fractions, ...times } = (
          window as unknown as { told: { fractions: Set<number>; pressedAt: number; toldAt: number } }
        ).told;
        return { ...times, steps: fractions.size };
      });

    await page.getByLabel('New set-up…').setInputFiles(path);
    await expect
      .poll(async () => (await told()).steps, { intervals: [20], timeout: 30_000 })
      .toBeGreaterThan(3);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect(page.getByRole('progressbar', { name: 'Reading' })).toHaveCount(0);
    const { pressedAt, toldAt } = await told();
    const afterCancel = await settledMegabytes(page, browser);

    const begun = Date.now();
    await page.getByLabel('New set-up…').setInputFiles(path);
    await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible({ timeout: 60_000 });
    await waitForVerdict(page);
    const ms = Date.now() - begun;
    const { steps } = await told();
    const afterReading = await settledMegabytes(page, browser);
    console.log(
      `measured: ${name} read in ${(ms / 1000).toFixed(1)} s, ${steps} steps of progress, Cancel after ${(toldAt - pressedAt).toFixed(1)} ms; ` +
        `held ${base?.toFixed(0)} MB before, ${afterCancel?.toFixed(0)} after Cancel, ${afterReading?.toFixed(0)} after reading`,
    );
    expect(steps).toBeGreaterThan(10);
    expect(toldAt - pressedAt).toBeLessThan(100);
    test.skip(base === null, 'what a process holds is read from the system on Linux only');
    expect(afterCancel! - base!).toBeLessThan(LEFT_MEGABYTES);
    expect(afterReading! - base!).toBeLessThan(LEFT_MEGABYTES);
  });
