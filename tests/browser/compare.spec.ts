import { chooseSample, expect, openBench, test } from './open-bench.ts';

test('two takes are compared, sheets sorted by their figures, and the verdict shown large; all by keyboard', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await expect(page.getByText('Compare two takes')).toHaveCount(0); // with one there is nothing to compare
  await chooseSample(page, 'One side dark and cool');
  await page.getByText('Compare two takes').focus();
  await page.keyboard.press('Enter');
  const compare = page.locator('evenfield-compare');
  const map = compare.getByRole('img', { name: 'Difference of light' });
  await expect(map).toBeVisible();
  await expect(map.locator('path.tolerance')).toHaveCount(1); // the line of no change
  await expect(compare.getByText(/stops? more ±/)).toBeVisible();
  await compare.getByRole('combobox', { name: 'What is compared' }).selectOption('tint');
  await expect(compare.getByRole('img', { name: 'Difference of tint' })).toBeVisible();
  await compare.getByRole('combobox', { name: 'The take that is compared' }).selectOption('take-1');
  await expect(compare.getByText(/the same within/).first()).toBeVisible(); // against itself

  await page.getByText('Choose a sheet or a light').click();
  const table = page.locator('evenfield-take-table');
  const spread = table.getByRole('columnheader', { name: /^Spread/ });
  const names = () => table.getByRole('rowheader').allInnerTexts();
  await expect(spread).not.toHaveAttribute('aria-sort');
  await spread.getByRole('button').focus();
  await page.keyboard.press('Enter');
  await expect(spread).toHaveAttribute('aria-sort', 'ascending');
  expect((await names())[0]).toContain('nearly-perfect');
  await page.keyboard.press('Enter');
  await expect(spread).toHaveAttribute('aria-sort', 'descending');
  expect((await names())[0]).toContain('one-side-dark-and-cool');

  await page.getByRole('button', { name: 'Large sign' }).focus();
  await page.keyboard.press('Enter');
  const sign = page.getByRole('dialog', { name: 'Not yet' });
  await expect(sign).toBeVisible();
  const { size, fits } = await sign.evaluate((dialog) => ({
    size:
      Number.parseFloat(getComputedStyle(dialog.querySelector('.largest')!).fontSize) / window.innerHeight,
    fits: dialog.scrollHeight <= dialog.clientHeight && dialog.scrollWidth <= dialog.clientWidth,
  }));
  console.log(`measured: letters of the large sign are ${(size * 100).toFixed(0)} % of the window’s height`);
  expect(size).toBeGreaterThan(0.2);
  expect(fits).toBe(true);
  await page.keyboard.press('Escape');
  await expect(sign).toHaveCount(0);
});

test('a narrow screen shows all of it without scrolling sideways', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await chooseSample(page, 'One side dark and cool');
  await page.getByText('Compare two takes').click();
  await page.getByText('Choose a sheet or a light').click();
  await expect(page.getByRole('img', { name: 'Difference of light' })).toBeVisible();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  await page.getByRole('button', { name: 'Large sign' }).click();
  const sign = page.getByRole('dialog');
  expect(await sign.evaluate((dialog) => dialog.scrollWidth <= dialog.clientWidth)).toBe(true);
});
