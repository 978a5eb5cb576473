import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { A_READING, chooseSample, expect, noteErrors, openBench, takeIds, test } from './open-bench.ts';

const FRAME = readFileSync('samples/nearly-perfect.png');
const HANGS = { name: 'hangs.png', mimeType: 'image/png', buffer: FRAME };

/** The first engine of the page computes without an end as soon as it is given that file; later ones are as built. */
async function hangOnce(page: Page): Promise<void> {
  let engines = 0;
  await page.route('**/engine.worker*', async (route) => {
    if (engines++ > 0) return route.continue();
    const response = await route.fetch();
    const body = `addEventListener('message', ({ data }) => { if (JSON.stringify(data).includes('hangs.png')) for (;;); });\n${await response.text()}`;
    return route.fulfill({ response, body });
  });
}

test('an engine that computes without an end is ended and replaced; the user is told, and tries again', async ({
  page,
}) => {
  await page.clock.install();
  await hangOnce(page);
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  const errors = await noteErrors(page);
  const verdict = await page.locator('.verdict').textContent();
  await page.getByLabel('Read another frame…').setInputFiles(HANGS);
  const alert = page.getByRole('alert');
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toBeVisible();

  const long = page.getByText('Nothing new was heard of this for a minute');
  await page.clock.runFor('00:50');
  await expect(long).toHaveCount(0);
  await page.clock.runFor('00:20');
  await expect(long).toBeVisible();
  await expect(page.getByRole('button', { name: 'Cancel' })).toBeVisible();

  await page.clock.runFor('03:20');
  await expect(alert).toBeEmpty();
  await page.clock.runFor('00:40');
  await expect(alert).toContainText(
    'The engine has not answered for 5 minutes while it worked on hangs.png, and was ended.',
  );
  await expect(alert).toContainText(
    'The earlier takes are kept, and nothing was written. Try the frame again.',
  );
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toHaveCount(0);
  await expect(long).toHaveCount(0);
  expect(await errors()).toMatchObject([{ code: 'worker-lost', fileName: 'hangs.png' }]);
  expect(await takeIds(page)).toEqual(['take-1']);
  expect(await page.locator('.verdict').textContent()).toBe(verdict);

  await alert.getByRole('button', { name: 'Try again' }).click();
  await expect.poll(() => takeIds(page), A_READING).toEqual(['take-1', 'take-2']);
  await expect(alert).toBeEmpty();
  await expect(page.getByText('hangs.png').first()).toBeVisible();
});

test('an engine that is ended from outside is replaced too, and the frame tried again', async ({ page }) => {
  await page.addInitScript(() => {
    const Real = window.Worker;
    let engines = 0;
    window.Worker = class extends Real {
      constructor(address: string | URL, options?: WorkerOptions) {
        super(address, options);
        if (String(address).includes('engine') && engines++ === 0)
          queueMicrotask(() => this.dispatchEvent(new ErrorEvent('error', { message: 'gone' })));
      }
    };
  });
  await openBench(page);
  await page.getByRole('button', { name: /Nearly perfect/ }).click();
  const alert = page.getByRole('alert');
  await expect(alert).toContainText('The engine stopped: gone.');
  await alert.getByRole('button', { name: 'Try again' }).click();
  await expect.poll(() => takeIds(page), A_READING).toEqual(['take-1']);
  await expect(alert).toBeEmpty();
});
