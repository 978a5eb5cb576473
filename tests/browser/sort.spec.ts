import type { Page } from '@playwright/test';
import { offerShoot, SHOOT } from './offered-shoot.ts';
import { A_READING, expect, openBench, test, waitForVerdict } from './open-bench.ts';

const kinds = (page: Page) =>
  page
    .getByRole('combobox', { name: /^What frame-\d+\.jpg is$/ })
    .evaluateAll((selects) => (selects as HTMLSelectElement[]).map(({ value }) => value));

test('a shoot is sorted, a wrong guess put right by one key, and its set handed on to be corrected', async ({
  page,
}) => {
  test.setTimeout(90_000);
  await openBench(page);
  await offerShoot(page);
  await page.getByRole('button', { name: 'Sort a shoot…' }).click();
  const sorted = page.getByRole('region', { name: 'The shoot, sorted' });
  await expect(sorted.getByText(/^To be corrected/)).toBeVisible(A_READING);
  expect(await kinds(page)).toEqual(SHOOT.frames.map(({ kind }) => kind));
  const names = SHOOT.frames.map(({ name }) => name);
  const [first, last] = [SHOOT.keepers[0]!, SHOOT.keepers.at(-1)!];
  await expect(
    sorted.getByText(
      `To be corrected: the ${SHOOT.keepers.length} frames of the subject after the last marker, ${names[first]} to ${names[last]}; by the blank ${names[0]}.`,
    ),
  ).toBeVisible();

  await page.getByRole('combobox', { name: `What ${names[first]} is` }).focus();
  await page.keyboard.press('m');
  await expect(sorted.getByText(`${names[first + 1]} to ${names[last]}`)).toBeVisible();
  await expect(sorted.getByText('as you said')).toBeVisible();
  await page.keyboard.press('s');
  await expect(sorted.getByText(`${names[first]} to ${names[last]}`)).toBeVisible();

  await sorted.getByRole('button', { name: 'Read the blank and choose these' }).click();
  await waitForVerdict(page);
  for (const i of SHOOT.keepers)
    await expect(page.getByRole('button', { name: `Leave out ${names[i]}` })).toBeVisible(A_READING);
  await sorted.getByRole('button', { name: 'Put them away' }).click();
  await expect(page.getByRole('button', { name: 'Sort a shoot…' })).toBeVisible();
});

test('a folder without a picture is told of', async ({ page }) => {
  await openBench(page);
  await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const empty = await root.getDirectoryHandle('empty', { create: true });
    Object.assign(window, { showDirectoryPicker: async () => empty });
  });
  await page.getByRole('button', { name: 'Sort a shoot…' }).click();
  await expect(page.getByText('There is no picture in that folder.')).toBeVisible();
});
