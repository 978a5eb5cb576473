import { A_READING, chooseSample, expect, openBench, takeIds, test, waitForVerdict } from './open-bench.ts';

const row = (id: number) => ({ name: `Note on take ${id}` });

test('takes are deleted and taken back by keyboard; what is kept is left unasked, also in the middle of a reading', async ({
  page,
}) => {
  const asked: string[] = [];
  page.on('dialog', (dialog) => {
    asked.push(dialog.type());
    void dialog.accept();
  });
  await openBench(page);
  for (const title of ['Nearly perfect', 'Sheet lit off centre', 'Light panel'])
    await chooseSample(page, title);
  await page.getByRole('textbox', row(2)).fill('sheet ironed');
  await page.getByRole('button', { name: 'Delete take 2' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByText('Take 2 was deleted.')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Take it back' })).toBeFocused();
  expect(await takeIds(page)).toEqual(['take-1', 'take-3']);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('textbox', row(2))).toHaveValue('sheet ironed');
  expect(await takeIds(page)).toEqual(['take-1', 'take-2', 'take-3']);
  await page.getByRole('button', { name: 'Delete take 3' }).click();
  await expect(page.getByRole('textbox', row(3))).toHaveCount(0);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toHaveAttribute('aria-current', 'true');
  await page.getByRole('radio', { name: 'Not done', exact: true }).first().check();

  await page.waitForTimeout(1500);
  await page.getByRole('button', { name: /Tinted sheet/ }).click();
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toBeVisible();
  await page.reload();
  expect(asked).toEqual([]);
  await page.getByRole('button', { name: /^Go on with 2 takes/ }).click();
  await waitForVerdict(page);
  expect(await takeIds(page)).toEqual(['take-1', 'take-2']);
  await expect(page.getByRole('textbox', row(2))).toHaveValue('sheet ironed');
  await expect(page.getByRole('radio', { name: 'Not done', exact: true }).first()).toBeChecked();
});

test('how many more takes fit is said before none does, and an earlier shoot can make room', async ({
  page,
}) => {
  const leave = (bytes: number) =>
    page.evaluate((left) => {
      navigator.storage.estimate = async () => ({ quota: 1e9, usage: 1e9 - left });
    }, bytes);
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await page.waitForTimeout(1500);
  await page.reload();
  await leave(50e6);
  await chooseSample(page, 'Tinted sheet');
  await expect(page.getByText(/room in this browser for about \d+ more takes/)).toBeVisible(A_READING);
  await leave(0);
  await chooseSample(page, 'Light panel');
  await expect(page.getByRole('alert').getByText('No further take fits')).toBeVisible();
  await leave(1e9);
  await page.getByRole('button', { name: /^Delete for good 1 take/ }).click();
  await expect(page.getByText('No further take fits')).toHaveCount(0);
  expect(await takeIds(page)).toEqual(['take-1', 'take-2']);
});
