import { type Page, test as unwatched } from '@playwright/test';
import { expect, openBench, test } from './open-bench.ts';

test.use({
  launchOptions: async ({ launchOptions }, use) =>
    use({
      ...launchOptions,
      args: [
        ...(launchOptions.args ?? []),
        '--use-fake-ui-for-media-stream',
        '--use-fake-device-for-media-stream',
      ],
    }),
});

const look = (page: Page) => page.getByRole('button', { name: 'Look through a camera…' });
const live = (page: Page) => page.getByRole('region', { name: 'Live' });
const measured = (page: Page) => live(page).getByText(/over \d+ pictures|The light moves|Settling/);

// not watched for complaints: of a picture that an ended worker held, the browser itself complains
unwatched(
  'a live view whose worker computes without an end is ended and told, and looks again with another',
  async ({ page }) => {
    await page.clock.install();
    let workers = 0;
    await page.route('**/live.worker*', async (route) => {
      if (workers++ > 0) return route.continue();
      const response = await route.fetch();
      const body = `addEventListener('message', ({ data }) => { if (data.path?.includes('follow')) for (;;); });\n${await response.text()}`;
      return route.fulfill({ response, body });
    });
    await openBench(page);
    await look(page).click();
    await expect(live(page).getByText('Waiting for the first picture…')).toBeVisible();
    const alert = page.getByRole('alert').filter({ hasText: 'What measures the camera’s pictures' });
    await page.clock.runFor('00:20');
    await expect(alert).toHaveCount(0);
    await page.clock.runFor('00:16');
    await expect(alert).toHaveText(
      'What measures the camera’s pictures has not answered for half a minute, and was ended. The takes are kept; look again.',
    );
    await expect(live(page)).toHaveCount(0);
    await expect.poll(() => page.workers().some((worker) => worker.url().includes('live'))).toBe(false);

    await look(page).click();
    await expect(alert).toHaveCount(0);
    await expect(measured(page)).toBeVisible({ timeout: 20_000 });
    // one that is well outlives the half minute: the time runs on in steps, each answered
    for (let i = 0; i < 20; i++) {
      await page.clock.runFor('00:02');
      await page.waitForTimeout(150);
    }
    await expect(alert).toHaveCount(0);
    await expect(measured(page)).toBeVisible();
  },
);

test('a live view whose worker dies says so, and looks again with another', async ({ page }) => {
  await page.addInitScript(() => {
    const Real = window.Worker;
    let workers = 0;
    window.Worker = class extends Real {
      constructor(address: string | URL, options?: WorkerOptions) {
        super(address, options);
        if (String(address).includes('live') && workers++ === 0)
          setTimeout(() => this.dispatchEvent(new ErrorEvent('error', { message: 'gone' })), 200);
      }
    };
  });
  await openBench(page);
  await look(page).click();
  await expect(page.getByText('What measures the camera’s pictures has stopped')).toBeVisible();
  await expect(live(page)).toHaveCount(0);
  await look(page).click();
  await expect(measured(page)).toBeVisible({ timeout: 20_000 });
});
