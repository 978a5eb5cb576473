import { expect, type Page } from '@playwright/test';
import { offerShoot } from '../browser/offered-shoot.ts';
import { A_READING, chooseSample, openBench } from '../browser/open-bench.ts';
import { drawn, report } from './states.ts';

/** Two takes of unlike light. */
async function twoTakes(page: Page): Promise<void> {
  await report(page, 'Nearly perfect');
  await chooseSample(page, 'One side dark and cool');
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible(A_READING);
  await drawn(page);
}

/** A lamp's light seen by a camera that is a canvas: it does not move. */
async function live(page: Page): Promise<void> {
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = async () => {
      const canvas = Object.assign(document.createElement('canvas'), { width: 640, height: 360 });
      const context = canvas.getContext('2d')!;
      const picture = context.createImageData(640, 360);
      const show = () => {
        for (let y = 0; y < 360; y++)
          for (let x = 0; x < 640; x++) {
            const light = 0.7 / (1 + 1.1 * ((x / 640 - 0.3) ** 2 + (y / 640 - 0.25) ** 2)) ** 2;
            const noise = 0.008 * (Math.random() - 0.5);
            for (const [channel, share] of [0.98, 1, 0.97].entries())
              picture.data[4 * (640 * y + x) + channel] = 255 * ((light * share) ** (1 / 2.2) + noise);
            picture.data[4 * (640 * y + x) + 3] = 255;
          }
        context.putImageData(picture, 0, 0);
      };
      show();
      setInterval(show, 100);
      const stream = canvas.captureStream(10);
      Object.defineProperty(stream.getVideoTracks()[0], 'label', { value: 'Camera beside the set' });
      return stream;
    };
  });
  await openBench(page);
  await page.getByRole('button', { name: 'Look through a camera…' }).click();
  await expect(page.getByText(/over \d+ pictures/)).toBeVisible({ timeout: 20_000 });
}

/** A folder of a whole shoot, told apart. */
async function sorting(page: Page): Promise<void> {
  await openBench(page);
  await offerShoot(page);
  await page.getByRole('button', { name: 'Sort a shoot…' }).click();
  await expect(page.getByText(/^To be corrected/)).toBeVisible(A_READING);
}

/** A sheet of A4 as it is seen at 96 pixels an inch, less its margins. */
const PAPER = { width: 720, height: 1040 };

/** States beside the report, or that take over the screen. */
export const FURTHER_STATES: Record<string, (page: Page) => Promise<void>> = {
  comparing: async (page) => {
    await twoTakes(page);
    await page.getByText('Compare two takes').click();
    await page.waitForTimeout(1500);
  },
  'take-table': async (page) => {
    await twoTakes(page);
    await page.getByText('Choose a sheet or a light').click();
    await page.waitForTimeout(500);
  },
  live,
  sorting,
  'large-sign': async (page) => {
    await twoTakes(page);
    await page.getByRole('button', { name: 'Large sign' }).click();
  },
  record: async (page) => {
    await twoTakes(page);
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize(PAPER);
  },
};
