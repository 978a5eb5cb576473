import { writeFileSync } from 'node:fs';
import sharp from 'sharp';
import { expect, openBench, test, waitForVerdict } from './open-bench.ts';

const WIDTH = 6000;
const HEIGHT = 4000;
const LONGEST_TASK_MS = 100;

/** A 24-megapixel JPEG of a light off centre, with noise. */
async function largeFrame(): Promise<Buffer> {
  const pixels = Buffer.alloc(WIDTH * HEIGHT * 3);
  let seed = 1;
  for (let y = 0, i = 0; y < HEIGHT; y++) {
    const down = (y / HEIGHT - 0.4) ** 2;
    for (let x = 0; x < WIDTH; x++) {
      const level = 220 - 160 * ((x / WIDTH - 0.45) ** 2 + down);
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) | 0;
      const noise = (seed >>> 24) / 64 - 2;
      pixels[i++] = level + noise;
      pixels[i++] = level + noise;
      pixels[i++] = level - noise;
    }
  }
  return sharp(pixels, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .jpeg({ quality: 92, chromaSubsampling: '4:2:0' })
    .toBuffer();
}

test('no task of the page’s thread takes over 100 ms while a 24-megapixel JPEG is read', async ({
  page,
}, testInfo) => {
  const path = testInfo.outputPath('large-frame.jpg');
  writeFileSync(path, await largeFrame());
  await openBench(page);
  await page.waitForLoadState('networkidle');
  await page.evaluate(() => {
    const noted: number[] = [];
    Object.assign(window, { longTasks: noted });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) noted.push(entry.duration);
    }).observe({ type: 'longtask' });
    document.addEventListener('evenfield-reading', () =>
      Object.assign(window, { readAt: performance.now() }),
    );
    document.addEventListener('evenfield-progress', () => {
      const times = window as unknown as { startedAt?: number };
      times.startedAt ??= performance.now();
    });
  });
  await page.getByLabel('Choose a frame…').setInputFiles(path);
  await waitForVerdict(page);
  await page.waitForTimeout(500); // a long task is told of after it has ended
  const { longTasks, startedAt, readAt } = await page.evaluate(() => {
    const noted = window as unknown as { longTasks: number[]; startedAt: number; readAt: number };
    return { longTasks: noted.longTasks, startedAt: noted.startedAt, readAt: noted.readAt };
  });
  const longest = Math.max(0, ...longTasks);
  console.log(
    `measured: 24 megapixels read in ${Math.round(readAt - startedAt)} ms; tasks over 50 ms on the page's thread: ` +
      `${longTasks.length}, the longest ${Math.round(longest)} ms`,
  );
  expect(readAt).toBeGreaterThan(startedAt);
  expect(longest).toBeLessThanOrEqual(LONGEST_TASK_MS);
});
