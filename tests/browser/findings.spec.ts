import { chooseSample, expect, openBench, test } from './open-bench.ts';

test('a finding lights up its place on the map while pointed at or focused', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  const finding = page.getByRole('button', { name: /The light stands .* seen/ }).first();
  await expect(page.locator('.marked')).toHaveCount(0);
  await finding.focus();
  await expect(page.locator('.marked')).toBeVisible();
  await finding.blur();
  await expect(page.locator('.marked')).toHaveCount(0);
  await finding.hover();
  await expect(page.locator('.marked')).toBeVisible();
});

test('pressing a finding brings the map into view on a narrow screen', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await page
    .getByRole('button', { name: /The light stands .* seen/ })
    .first()
    .click();
  await expect(page.locator('.marked')).toBeInViewport();
});
