import type { Page } from '@playwright/test';
import { keepBusy } from './busy-thread.ts';
import { writeLargeJpeg } from './large-jpeg.ts';
import { expect, openBench, test, waitForVerdict } from './open-bench.ts';

const LONGEST_TASK_MS = 100;
const PLANTED_MS = 120;

interface Times {
  longTasks: number[];
  startedAt?: number;
  readAt?: number;
}

/** Notes, from now on, when a reading begins and ends and every task of over 50 ms on the page's own thread. */
function watch(page: Page): Promise<void> {
  return page.evaluate(() => {
    const times: Times = { longTasks: [] };
    Object.assign(window, { times });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) times.longTasks.push(entry.duration);
    }).observe({ type: 'longtask' });
    document.addEventListener('evenfield-reading', () => {
      times.readAt = performance.now();
    });
    document.addEventListener('evenfield-progress', () => {
      times.startedAt ??= performance.now();
    });
  });
}

async function noted(page: Page): Promise<Times> {
  await page.waitForTimeout(500); // a long task is told of after it has ended
  return page.evaluate(() => (window as unknown as { times: Times }).times);
}

// another program at work can only lengthen a time: a machine that is busy just then is given two more tries
test.describe.configure({ retries: 2 });

test('no task of the page’s thread takes over 100 ms while a 24-megapixel JPEG is read', async ({
  page,
}, testInfo) => {
  const path = await writeLargeJpeg(testInfo.outputPath('large-frame.jpg'));
  await openBench(page);
  await page.waitForLoadState('networkidle');
  await watch(page);

  await keepBusy(page, PLANTED_MS);
  expect(Math.max(0, ...(await noted(page)).longTasks), 'a planted task is seen').toBeGreaterThanOrEqual(
    PLANTED_MS,
  );
  await page.evaluate(() => {
    (window as unknown as { times: Times }).times.longTasks.length = 0;
  });

  await page.getByLabel('Choose a frame…').setInputFiles(path);
  await waitForVerdict(page);
  const { longTasks, startedAt, readAt } = await noted(page);
  const longest = Math.max(0, ...longTasks);
  console.log(
    `measured: 24 megapixels read in ${Math.round(readAt! - startedAt!)} ms; tasks over 50 ms on the page's thread: ` +
      `${longTasks.length}, the longest ${Math.round(longest)} ms`,
  );
  expect(readAt!).toBeGreaterThan(startedAt!);
  expect(longest).toBeLessThanOrEqual(LONGEST_TASK_MS);
});
