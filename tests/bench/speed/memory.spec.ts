import { readFileSync, writeFileSync } from 'node:fs';
import { type Browser, expect, type Page, test } from '@playwright/test';
import { settledMegabytes, TIDY_FLAGS } from '../../browser/renderer-memory.ts';
import { type BenchFile, jpegFile, SIZES, tiffFile } from './bench-files.ts';
import { report, type Times } from './timed-rounds.ts';

test.use({
  launchOptions: async ({ launchOptions }, use) =>
    use({ ...launchOptions, args: [...launchOptions.args!, ...TIDY_FLAGS] }),
});
test.skip(process.platform !== 'linux', 'what a process holds is read from the system on Linux only');

/** Each in a page of its own; memory scatters less than time. */
const ROUNDS = 3;
const PEAK = 'peak beyond the blank page';
const PIXELS = 'decoded 8-bit RGBA pixels';
const LEFT = 'held after it, beyond what a small frame left';

const FILES: readonly BenchFile[] = [
  jpegFile(24, '4:2:0'),
  jpegFile(60, '4:2:0'),
  jpegFile(100, '4:2:0'),
  tiffFile(24, 'none'),
];

for (const file of FILES)
  test(`what reading ${file.name} takes of memory, and gives back`, async ({ browser }) => {
    const path = await file.path();
    const [widthPx, heightPx] = SIZES[file.megapixels]!;
    const megabytes: Times = {
      [PEAK]: [],
      [PIXELS]: Array(ROUNDS).fill((4 * widthPx * heightPx) / 2 ** 20),
      [LEFT]: [],
    };
    for (let round = 0; round < ROUNDS; round++) {
      const page = await browser.newPage();
      await page.route('**/bench-blank', (route) => route.fulfill({ contentType: 'text/html', body: '' }));
      await page.goto('./bench-blank');
      const blank = await held(page, browser, 'VmRSS');
      await page.goto('./');
      await page.waitForLoadState('networkidle');
      await readByPage(page, 'samples/light-panel.jpg'); // the engine's own code stays
      await page.waitForTimeout(1000);
      const before = (await settledMegabytes(page, browser))!;
      await forgetPeak(page, browser);
      await readByPage(page, path);
      megabytes[PEAK]!.push((await held(page, browser, 'VmHWM')) - blank);
      await page.waitForTimeout(1000); // the report is drawn
      megabytes[LEFT]!.push((await settledMegabytes(page, browser))! - before);
      await page.close();
    }
    report(`${file.name}, memory`, megabytes, [{ of: PEAK, against: PIXELS, atMost: 3 }], 'MB');
    expect(megabytes[PEAK]).toHaveLength(ROUNDS);
  });

async function readByPage(page: Page, path: string): Promise<void> {
  await page.evaluate(() => {
    const read = new Promise((resolve, reject) => {
      document.addEventListener('evenfield-reading', () => resolve(null), { once: true });
      document.addEventListener('evenfield-error', (event) => reject((event as CustomEvent).detail), {
        once: true,
      });
    });
    Object.assign(window, { read });
  });
  await page.getByLabel(/Choose a frame…|Read another frame…/).setInputFiles(path);
  await page.evaluate(() => (window as unknown as { read: Promise<unknown> }).read);
}

/** Megabytes of the renderer that holds most, by a line of its status: the page's, workers and all. */
async function held(page: Page, browser: Browser, line: 'VmRSS' | 'VmHWM'): Promise<number> {
  const kilobytes = (await renderers(page, browser)).map((id) => {
    const status = readFileSync(`/proc/${id}/status`, 'utf8');
    return Number(new RegExp(`^${line}:\\s+(\\d+) kB`, 'm').exec(status)![1]);
  });
  return Math.max(...kilobytes) / 1024;
}

/** From now on VmHWM is the most that is held from now on. Source: Linux, proc_pid_clear_refs(5). */
async function forgetPeak(page: Page, browser: Browser): Promise<void> {
  for (const id of await renderers(page, browser)) writeFileSync(`/proc/${id}/clear_refs`, '5');
}

async function renderers(page: Page, browser: Browser): Promise<number[]> {
  await page.evaluate(() => {}); // its process is there
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  return processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
}
