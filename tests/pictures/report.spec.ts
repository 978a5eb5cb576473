import { expect, test } from '@playwright/test';

/** Pictures of the running tool: the README's own, and every state at both sizes for whoever changes the screen. */
const SIZES = { wide: { width: 1440, height: 900 }, narrow: { width: 390, height: 844 } } as const;
const STATES = {
  start: async () => {},
  report: async (page) => {
    await page.getByRole('button', { name: /Sheet lit off centre/ }).click();
    await expect(page.getByRole('heading', { level: 2 }).first()).toBeVisible();
    await page.waitForTimeout(3000);
  },
  failure: async (page) => {
    await page
      .getByLabel('Choose a frame…')
      .setInputFiles({ name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('not a picture') });
    await expect(page.getByRole('alert')).not.toBeEmpty();
  },
} satisfies Record<string, (page: import('@playwright/test').Page) => Promise<void>>;

for (const [size, viewport] of Object.entries(SIZES)) {
  for (const colorScheme of ['light', 'dark'] as const) {
    for (const [state, reach] of Object.entries(STATES)) {
      test(`${state}, ${size}, ${colorScheme}`, async ({ page }) => {
        await page.setViewportSize(viewport);
        await page.emulateMedia({ colorScheme });
        await page.goto('./');
        await reach(page);
        await page.screenshot({
          path: `reports/pictures/${state}-${size}-${colorScheme}.png`,
          fullPage: true,
        });
        if (state !== 'report' || size !== 'wide' || colorScheme !== 'light') return;
        await page.screenshot({
          path: 'tests/pictures/report.png', // the README's
          fullPage: true,
          clip: { x: 0, y: 0, width: 1440, height: 1240 },
        });
      });
    }
  }
}
