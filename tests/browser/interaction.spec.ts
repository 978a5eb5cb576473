import type { Page } from '@playwright/test';
import { slowNextClick } from './busy-thread.ts';
import {
  forgetInteractions,
  type Interaction,
  interactionTimes,
  watchInteractions,
} from './interaction-times.ts';
import { writeLargeJpeg } from './large-jpeg.ts';
import { chooseSample, expect, openBench, test, waitForVerdict } from './open-bench.ts';

const LONGEST_MS = 100;
const PLANTED_MS = 150;
/** Fewer than these before the reading arrived would not show much. */
const FEWEST_PRESSES = 15;

/** What somebody may do with an earlier take while the next frame is read; each by a real key or button. */
const DEEDS: readonly ((page: Page) => Promise<void>)[] = [
  (page) => page.getByRole('radio', { name: 'Tint' }).click(),
  (page) => page.getByRole('application').click({ position: { x: 60, y: 60 } }),
  (page) => page.keyboard.press('Shift+ArrowRight'),
  (page) => page.keyboard.press('ArrowDown'),
  async (page) => {
    await page.getByRole('combobox', { name: 'Yardstick' }).focus();
    await page.keyboard.press('ArrowDown');
  },
  (page) => page.getByRole('radio', { name: 'Light', exact: true }).click(),
  async (page) => {
    await page.getByRole('textbox', { name: 'Note on take 1' }).click();
    await page.keyboard.type('head left');
  },
];

const longest = (found: readonly Interaction[]) =>
  found.reduce((most, each) => (each.durationMs > most.durationMs ? each : most), {
    name: 'none over 16 ms',
    startedAt: 0,
    durationMs: 0,
  });

// another program at work can only lengthen a time: a machine that is busy just then is given two more tries
test.describe.configure({ retries: 2 });

test('every key and button is answered within 100 ms while a 24-megapixel JPEG is read', async ({
  page,
}, testInfo) => {
  const path = await writeLargeJpeg(testInfo.outputPath('large-frame.jpg'));
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await watchInteractions(page);

  await slowNextClick(page, PLANTED_MS);
  await page.getByRole('radio', { name: 'Tint' }).click();
  await expect(page.getByRole('img', { name: 'Map of the tint' })).toBeVisible();
  await expect
    .poll(async () => longest((await interactionTimes(page)).slow).durationMs, {
      message: 'a planted slow handler is seen',
    })
    .toBeGreaterThanOrEqual(PLANTED_MS);
  await page.getByRole('radio', { name: 'Light', exact: true }).click();
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await forgetInteractions(page);
  await page.getByLabel('Read another frame…').setInputFiles(path);
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toBeVisible();
  for (let i = 0; (await interactionTimes(page)).readAt === null; i++) await DEEDS[i % DEEDS.length]!(page);
  await waitForVerdict(page);
  await page.waitForTimeout(500); // an interaction is told of after it was shown

  const { presses, slow, readAt } = await interactionTimes(page);
  const during = presses.filter((pressedAt) => pressedAt < readAt!);
  const slowDuring = slow.filter(({ startedAt }) => startedAt < readAt!);
  const worst = longest(slowDuring);
  console.log(
    `measured: ${during.length} presses while 24 megapixels were read, ${slowDuring.length} events took 16 ms or more; ` +
      `the longest from press to next picture ${worst.durationMs} ms (${worst.name}); over the whole, into the new report: ` +
      `${longest(slow).durationMs} ms of ${presses.length} presses`,
  );
  expect(during.length).toBeGreaterThanOrEqual(FEWEST_PRESSES);
  expect(worst.durationMs).toBeLessThanOrEqual(LONGEST_MS);
});
