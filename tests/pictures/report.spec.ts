import { test } from '@playwright/test';
import { FURTHER_STATES } from './further-states.ts';
import { STATES } from './states.ts';

/** Pictures of the running tool: the README's own, and every state in every look for whoever changes the screen. */
const WIDE = { width: 1440, height: 900 };
const NARROW = { width: 390, height: 844 };

const LOOKS = [
  { name: 'wide-light', viewport: WIDE, colorScheme: 'light' },
  { name: 'wide-dark', viewport: WIDE, colorScheme: 'dark' },
  { name: 'narrow-light', viewport: NARROW, colorScheme: 'light' },
  { name: 'narrow-dark', viewport: NARROW, colorScheme: 'dark' },
  { name: 'wide-forced', viewport: WIDE, colorScheme: 'dark', forcedColors: 'active' },
  { name: 'wide-large-text', viewport: WIDE, colorScheme: 'light', isLarge: true },
  { name: 'narrow-large-text', viewport: NARROW, colorScheme: 'light', isLarge: true },
] as const;

for (const look of LOOKS)
  for (const [state, reach] of Object.entries({ ...STATES, ...FURTHER_STATES }))
    test(`${state}, ${look.name}`, async ({ page }) => {
      await page.setViewportSize(look.viewport);
      await page.emulateMedia({
        colorScheme: look.colorScheme,
        forcedColors: 'forcedColors' in look ? look.forcedColors : 'none',
      });
      await reach(page);
      if ('isLarge' in look)
        await page.evaluate(() => {
          document.documentElement.style.fontSize = '200%';
        });
      const samples = page.getByRole('heading', { name: 'Samples to try' });
      if (await samples.isVisible()) await samples.scrollIntoViewIfNeeded(); // its pictures load late
      await page.waitForTimeout(300);
      await page.evaluate(() => scrollTo(0, 0));
      const fullPage = state !== 'large-sign'; // it covers the screen, not the page
      await page.screenshot({ path: `reports/pictures/${state}-${look.name}.png`, fullPage });
      if (state !== 'report' || look.name !== 'wide-light') return;
      await page.screenshot({
        path: 'tests/pictures/report.png', // the README's
        fullPage: true,
        clip: { x: 0, y: 0, width: 1440, height: 1240 },
      });
    });
