import { fileChoosers } from './file-choosers.ts';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

test('the plan shows the set from above and, where a height matters, from the side', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Room spill');
  // its one move is against spill from above: the view that shows it comes first
  await expect(
    page.getByRole('img', { name: 'Plan of the set, seen from the side' }),
  ).toHaveAccessibleDescription(
    /the frame, 28 cm high; .*; the light, 120 cm behind; height not known; 1\. block the spill/,
  );
  await page.getByRole('radio', { name: 'From the side' }).focus();
  await page.keyboard.press('ArrowLeft');
  await expect(
    page.getByRole('img', { name: 'Plan of the set, seen from above' }),
  ).toHaveAccessibleDescription(
    /camera, 150 cm; the sheet: the frame, 42 cm wide; hottest here; the light, 120 cm behind/,
  );
  await expect(page.getByText('also behind the sheet')).toBeVisible();
});

test('the plan says what is not known, and is drawn to scale as soon as it is entered', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Light too close');
  const plan = page.getByRole('img', { name: /^Plan of the set/ });
  const width = page.getByRole('textbox', { name: 'Width of background that the frame shows' });
  await width.fill('');
  await width.press('Tab');
  await expect(page.getByText(/^Not to scale: enter/)).toBeVisible();
  await expect(plan).toHaveAccessibleDescription(/width not known/);
  await width.fill('80');
  await width.press('Tab');
  await expect(page.getByText(/^To scale; what is dashed is not known/)).toBeVisible();
  await expect(plan).toHaveAccessibleDescription(/80 cm wide/);
});

test('after a move of known length the plan shows the light where it stands now', async ({ page }) => {
  const choosers = fileChoosers(page);
  await openBench(page);
  await chooseSample(page, 'Light too close');
  await page.getByRole('textbox', { name: /^Distance now/ }).fill('64');
  await page.getByRole('textbox', { name: /^Distance now/ }).press('Tab');
  await page.getByRole('button', { name: 'Shoot again' }).click();
  await expect.poll(() => choosers.length).toBe(1);
  await choosers[0]!.setFiles(new URL('../../samples/light-too-close.jpg', import.meta.url).pathname);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
  const plan = page.getByRole('img', { name: /^Plan of the set/ });
  await expect(plan).toHaveAccessibleDescription(/the light, 64 cm behind/);
  await page.getByRole('button', { name: /^Take 1/ }).click();
  await expect(plan).toHaveAccessibleDescription(/the light, 32 cm behind/);
});
