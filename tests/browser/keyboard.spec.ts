import { readFileSync } from 'node:fs';
import { fileChoosers } from './file-choosers.ts';
import { tabTo } from './keyboard-way.ts';
import { chooseSample, expect, judgeByAnother, openBench, test, waitForVerdict } from './open-bench.ts';

const NEXT = {
  name: 'second.png',
  mimeType: 'image/png',
  buffer: readFileSync(new URL('../../samples/nearly-perfect.png', import.meta.url)),
};

test('the whole job can be done by keyboard alone', async ({ page }) => {
  test.setTimeout(120_000);
  const choosers = fileChoosers(page);
  const { keyboard } = page;
  await openBench(page);
  await tabTo(page, 'Choose a frame');
  await keyboard.press('Enter');
  await expect.poll(() => choosers.map((chooser) => chooser.isMultiple())).toEqual([true]);
  await tabTo(page, 'Distance of the light');
  await keyboard.type('60');
  await tabTo(page, 'Room spill');
  await keyboard.press('Enter');
  await waitForVerdict(page);

  // judged by another yardstick, looked at as tint, read at a spot
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await tabTo(page, 'Yardstick');
  await keyboard.press('ArrowDown');
  await expect(page.locator('.verdict')).toContainText(/from the centre; you asked for 5/);
  await tabTo(page, 'Light');
  await keyboard.press('ArrowRight');
  await expect(page.getByRole('img', { name: 'Map of the tint' })).toBeVisible();
  const spot = page.getByRole('status', { name: 'At the spot' });
  const middle = await spot.textContent();
  await tabTo(page, 'Map: the arrow keys');
  await keyboard.press('Shift+ArrowRight');
  await keyboard.press('ArrowUp');
  await expect(spot).not.toHaveText(middle!);

  // the first move answered, the next frame shot from that answer
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await tabTo(page, 'Done');
  await keyboard.press('Space');
  await expect(page.getByRole('radio', { name: 'Done', exact: true }).first()).toBeChecked();
  await keyboard.press('Enter');
  await expect.poll(() => choosers.length).toBe(2);
  await choosers[1]!.setFiles([NEXT]);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toHaveAttribute('aria-current', 'true');
  await expect(page.getByRole('row', { name: /Take 2/ })).toContainText('after one move');

  // a frame of another set-up, the first take looked at again, a note on it, its profile kept
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await tabTo(page, 'Read another frame');
  await keyboard.press('Enter');
  await expect.poll(() => choosers.length).toBe(3);
  await choosers[2]!.setFiles([{ ...NEXT, name: 'third.png' }]);
  await expect(page.getByRole('button', { name: /^Take 3/ })).toHaveAttribute('aria-current', 'true');
  await tabTo(page, 'Take 1');
  await keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Take 1/ })).toHaveAttribute('aria-current', 'true');
  await tabTo(page, 'Note on take 1');
  await keyboard.type('head a hand to the left');
  await tabTo(page, 'Save the correction profile');
  const [download] = await Promise.all([page.waitForEvent('download'), keyboard.press('Enter')]);
  expect(download.suggestedFilename()).toBe('room-spill.profile.json');
  await expect(page.getByRole('textbox', { name: 'Note on take 1' })).toHaveValue('head a hand to the left');
});

test('a reading is stopped by keyboard alone', async ({ page }) => {
  await openBench(page);
  await page.route('**/room-spill.png', () => {}); // never answered
  await tabTo(page, 'Room spill');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toBeVisible();
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await tabTo(page, 'Cancel');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toHaveCount(0);
  await expect(page.getByRole('alert')).toContainText('cancelled');
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

test('the spot stays where it was put when the frame is judged by another limit', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Room spill');
  const spot = page.getByRole('status', { name: 'At the spot' });
  const middle = await spot.textContent();
  await page.getByRole('application').focus();
  await page.keyboard.press('Shift+ArrowRight');
  await expect(spot).not.toHaveText(middle!);
  const moved = await spot.textContent();
  await judgeByAnother(page);
  expect(await spot.textContent()).toBe(moved);
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
