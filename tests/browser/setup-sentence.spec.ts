import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { chooseSample, expect, openBench, test } from './open-bench.ts';

const bench = (page: Page) =>
  page.evaluate(() => {
    const { setup, tolerance } = document.querySelector('evenfield-bench') as EvenfieldBench;
    return { setup, tolerance };
  });

async function type(page: Page, name: string, text: string): Promise<void> {
  const word = page.getByRole('textbox', { name, exact: true });
  await word.fill(text);
  await word.press('Enter');
}

test('a limit of one’s own judges the frame, and a slip of the fingers changes nothing', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await page.getByRole('combobox', { name: 'Yardstick' }).selectOption('a limit of my own');
  await expect(page.getByText('Your own limit, no published source.')).toBeVisible();
  await type(page, 'Limit of evenness', '2.5');
  await expect(page.locator('.verdict')).toContainText('Even enough');
  await type(page, 'Limit of evenness', 'much');
  await expect(page.getByText('“much” is no limit from 0.01 to 10 stops: 2.5 stops stays.')).toBeVisible();
  await expect(page.getByRole('textbox', { name: 'Limit of evenness' })).toHaveValue('2.5');
  await type(page, 'Limit of tint', '0,002');
  await expect
    .poll(async () => (await bench(page)).tolerance)
    .toMatchObject({ limit: 2.5, tintDeltaUv: 0.002 });
  await page.getByRole('combobox', { name: 'Measure of evenness' }).selectOption({ index: 3 });
  await expect(page.locator('.verdict')).toContainText(/of the mean; you asked for 80/);
});

test('two lights have a distance each, and lengths are read in the unit that is spoken', async ({ page }) => {
  await openBench(page);
  await page
    .getByRole('combobox', { name: 'Arrangement of the light' })
    .selectOption('Two lights on a background');
  await type(page, 'Distance of the right light', '90');
  await page.getByRole('combobox', { name: 'Unit of length' }).selectOption('inches');
  await expect(page.getByRole('textbox', { name: 'Distance of the right light' })).toHaveValue('35.4 in');
  await type(page, 'Distance of the left light', '20');
  await page.getByText('Size of the light, camera and room to move').click();
  await type(page, 'Room above the frame’s centre', '10');
  const { setup } = await bench(page);
  expect(setup.lampDistanceMm).toEqual([508, 900]);
  expect(setup.room.upMm).toBe(254);
  expect(setup.room.leftMm).toBeNull();
});

test('a word that is no length is told of, and what was there stays', async ({ page }) => {
  await openBench(page);
  await type(page, 'Distance of the light', '2 ft');
  await expect(page.getByRole('textbox', { name: 'Distance of the light' })).toHaveValue('61 cm');
  await type(page, 'Distance of the light', 'an arm');
  await expect(page.getByText('“an arm” is no length: 61 cm stays.')).toBeVisible();
  await expect(page.getByRole('textbox', { name: 'Distance of the light' })).toHaveValue('61 cm');
  await type(page, 'Distance of the light', '80');
  await expect(page.getByText('is no length')).toHaveCount(0);
});

test('a panel has no distance to enter, for it is the background', async ({ page }) => {
  await openBench(page);
  await page.getByRole('combobox', { name: 'Arrangement of the light' }).selectOption('A light panel');
  await expect(page.getByRole('textbox', { name: /Distance of the (light|panel)/ })).toHaveCount(0);
  await page.getByText('Place of the camera').click();
  await type(page, 'Distance of the lens from the background', '70');
  expect((await bench(page)).setup.cameraDistanceMm).toBe(700);
});

test('an older take keeps the set-up it was shot in, and is shown from its verdict on', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await chooseSample(page, 'Two unequal lights');
  await page.getByRole('button', { name: /^Take 1/ }).click();
  const arrangement = page.getByRole('combobox', { name: 'Arrangement of the light' });
  await expect(arrangement).toHaveValue('behind-sheet');
  await expect(page.locator('.verdict')).toBeInViewport();
  await expect(page.getByRole('status').filter({ hasText: /^Take 1: / })).toHaveCount(1);
  await page.getByRole('button', { name: /^Take 2/ }).click();
  await expect(arrangement).toHaveValue('two-lamps');
});
