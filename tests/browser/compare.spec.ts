import { readFileSync } from 'node:fs';
import sharp from 'sharp';
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

test('any plot is saved as SVG and as PNG, which show the same', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'One side dark and cool');
  const choice = page.getByRole('combobox', { name: 'The plot to save' });
  const save = async (kind: 'SVG' | 'PNG') => {
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: `Save it as ${kind}` }).click();
    const file = await saved;
    return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
  };
  await choice.selectOption('tint'); // with colour in it
  const [svg, png] = [await save('SVG'), await save('PNG')];
  expect([svg.name, png.name]).toEqual([
    'one-side-dark-and-cool.tint.svg',
    'one-side-dark-and-cool.tint.png',
  ]);
  const picture = sharp(png.bytes);
  const { width, height, density } = await picture.metadata();
  expect(density).toBe(300);
  expect(width).toBeGreaterThan(1800);
  // drawn by another renderer it is the same, but for the edges of lines and letters
  const plain = Buffer.from(svg.bytes.toString('utf8').replace(/width="[\d.]+mm" height="[\d.]+mm"/, ''));
  const small = { width: 340, height: Math.round((340 * height) / width), fit: 'fill' as const };
  const [mine, theirs] = await Promise.all(
    [sharp(plain), picture].map((each) =>
      each.flatten({ background: '#fff' }).resize(small).blur(2).raw().toBuffer(),
    ),
  );
  const apart = mine!.reduce((sum, value, i) => sum + Math.abs(value - theirs![i]!), 0) / mine!.length;
  console.log(
    `measured: the PNG of ${width} × ${height} lies ${apart.toFixed(2)} codes from the SVG as drawn elsewhere, on average`,
  );
  expect(apart).toBeLessThan(3);
  for (const each of ['light', 'sections', 'plan', 'cast', 'takes']) {
    await choice.selectOption(each);
    const { channels } = await sharp((await save('PNG')).bytes).stats();
    expect(channels[0]!.stdev, each).toBeGreaterThan(8); // not blank
  }
});
