import { readFileSync } from 'node:fs';
import type { Browser, Page } from '@playwright/test';

/** Flags for a browser whose workers can be told to tidy up, so that what is left is what is really held. */
export const TIDY_FLAGS = ['--js-flags=--expose-gc'];

/** Megabytes that the renderers hold of their own, after tidying up; `null` where the system does not tell. */
async function heldMegabytes(page: Page, browser: Browser): Promise<number | null> {
  if (process.platform !== 'linux') return null;
  await page.evaluate(tidy);
  // a worker that was just ended is still listed, and may never answer
  for (const worker of page.workers())
    await Promise.race([worker.evaluate(tidy).catch(() => {}), page.waitForTimeout(1000)]);
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  let kilobytes = 0;
  for (const { type, id } of processInfo) {
    if (type !== 'renderer') continue;
    const status = readFileSync(`/proc/${id}/status`, 'utf8');
    kilobytes += Number(/^RssAnon:\s+(\d+) kB/m.exec(status)?.[1] ?? 0);
  }
  return kilobytes / 1024;
}

/** Megabytes held once no more is given back for a second: an ended worker's memory goes by and by. */
export async function settledMegabytes(page: Page, browser: Browser): Promise<number | null> {
  let held = await heldMegabytes(page, browser);
  for (let still = 0; held !== null && still < 4; ) {
    await page.waitForTimeout(250);
    const now = (await heldMegabytes(page, browser))!;
    still = now < held - 1 ? 0 : still + 1;
    held = now;
  }
  return held;
}

const tidy = () => (globalThis as unknown as { gc?: () => void }).gc?.();
