import type { FileChooser } from '@playwright/test';
import { tabTo } from './keyboard-way.ts';
import { chooseSample, expect, openBench, test, waitForVerdict } from './open-bench.ts';

test('the whole job can be done by keyboard alone', async ({ page }) => {
  // listened for from the start: choosers opened just after listening begins are sometimes missed
  const choosers: FileChooser[] = [];
  page.on('filechooser', (chooser) => choosers.push(chooser));
  await openBench(page);
  await tabTo(page, 'Choose a frame');
  await page.keyboard.press('Enter');
  await expect.poll(() => choosers.map((chooser) => chooser.isMultiple())).toEqual([true]);
  await tabTo(page, 'Distance of the light');
  await page.keyboard.type('60');
  await tabTo(page, 'Room spill');
  await page.keyboard.press('Enter');
  await waitForVerdict(page);

  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await tabTo(page, 'Yardstick');
  await page.keyboard.press('ArrowDown');
  await expect(page.locator('.verdict')).toContainText(/from the centre; you asked for 5/);
  await tabTo(page, 'Light');
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('img', { name: 'Map of the tint' })).toBeVisible();
  await tabTo(page, 'Save the correction profile');
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  expect(download.suggestedFilename()).toBe('room-spill.profile.json');
});

test('the arrow keys move the spot that is read on the map', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const spot = page.getByRole('status', { name: 'At the spot' });
  const before = await spot.textContent();
  await page.getByRole('application').focus();
  await page.keyboard.press('Shift+ArrowRight');
  await expect(spot).not.toHaveText(before!);
  await page.keyboard.press('Shift+ArrowLeft');
  await expect(spot).toHaveText(before!);
  for (let i = 0; i < 12; i++) await page.keyboard.press('Shift+ArrowUp');
  await expect(spot).toContainText(/, 1\s% down/);
  await expect(spot).toContainText(/stops? down ±/);
});

test('pointing reads the spot under the pointer', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const map = page.getByRole('application');
  const box = (await map.boundingBox())!;
  await map.hover({ position: { x: box.width * 0.25, y: box.height * 0.75 } });
  await expect(page.getByRole('status', { name: 'At the spot' })).toContainText(
    /^2[4-6]\s% across, 7[3-7]\s% down/,
  );
});
