import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { violations } from './axe-violations.ts';
import { fileChoosers } from './file-choosers.ts';
import { tabTo } from './keyboard-way.ts';
import { A_READING, chooseSample, dropFiles, expect, openBench, test } from './open-bench.ts';

const BYTES = readFileSync(new URL('../../samples/nearly-perfect.png', import.meta.url));
const NEXT = { name: 'second.png', mimeType: 'image/png', buffer: BYTES };

/** The moves done before each take, as the element tells them. */
function done(page: Page) {
  return page.evaluate(() =>
    (document.querySelector('evenfield-bench') as EvenfieldBench).takes.map((take) => take.done),
  );
}

test('by keyboard alone: moves are answered, the next frame is shot, and the line shows two takes', async ({
  page,
}) => {
  const choosers = fileChoosers(page);
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());

  await tabTo(page, 'Done');
  await page.keyboard.press('ArrowDown'); // not done
  await page.keyboard.press('ArrowDown'); // I moved it
  await page.keyboard.press('Tab');
  await page.keyboard.type('12');
  await page.keyboard.press('Enter'); // confirms the length; it is no field's business to shoot
  expect(choosers).toEqual([]);
  await tabTo(page, 'Distance now');
  await page.keyboard.type('90');
  await tabTo(page, 'Done');
  await page.keyboard.press('ArrowDown');
  await expect(page.getByRole('radio', { name: 'Not done' }).last()).toBeChecked();
  await page.keyboard.press('Enter'); // from an answer: shoot again
  await expect.poll(() => choosers.length).toBe(1);
  await choosers[0]!.setFiles([NEXT]);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toHaveAttribute('aria-current', 'true');

  const [first, second] = await done(page);
  expect(first).toBeNull();
  expect(second).toMatchObject([
    { kind: 'slide-lamp', lamp: 0 },
    { kind: 'lamp-distance', lamp: 0, ratio: 1.5 },
  ]);
  const slide = second![0]!;
  if (slide.kind !== 'slide-lamp') throw new Error('a slide was expected');
  expect(Math.abs(Math.hypot(slide.rightMm!, slide.downMm!) - 120)).toBeLessThan(1e-9);
  expect(Math.abs(Math.hypot(slide.rightFrameWidths!, slide.downFrameWidths!) - 120 / 420)).toBeLessThan(
    1e-9,
  );

  await expect(
    page.getByRole('img', { name: 'The takes, from first to newest' }),
  ).toHaveAccessibleDescription(/From take to take, stops across the frame: 1\.\d, 0\.\d; limit 0\.3\./);
  await expect(page.getByText(/^Take 2 is the best: 0\.\d\sstop ±/)).toBeVisible();
  await expect(page.getByRole('row', { name: /Take 2/ })).toContainText('after 2 moves');
});

test('a frame dropped after an answer is the next take; "New set-up" begins afresh all the same', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await page.getByRole('radio', { name: 'Done', exact: true }).first().check();
  await dropFiles(page, [{ name: 'second.png', type: 'image/png', bytes: BYTES }]);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
  expect((await done(page)).map((moves) => moves?.map(({ kind }) => kind) ?? null)).toEqual([
    null,
    ['slide-lamp'],
  ]);

  await page.getByLabel('New set-up…').setInputFiles(NEXT);
  await expect(page.getByRole('button', { name: /^Take 3/ })).toBeVisible();
  expect((await done(page))[2]).toBeNull();
  await dropFiles(page, [{ name: 'fourth.png', type: 'image/png', bytes: BYTES }]);
  await expect(page.getByRole('button', { name: /^Take 4/ })).toBeVisible();
  expect((await done(page))[3]).toBeNull();
});

test('Enter on the page itself shoots again; with nothing moved that is what the take says', async ({
  page,
}) => {
  const choosers = fileChoosers(page);
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await page.getByRole('heading', { name: 'Evenfield', level: 1 }).click(); // all of the tool's page is its own
  await page.keyboard.press('Enter');
  await expect.poll(() => choosers.length).toBe(1);
  await choosers[0]!.setFiles([NEXT]);
  await expect(page.getByRole('row', { name: /Take 2/ })).toContainText('nothing moved');
  expect((await done(page))[1]).toEqual([]);
});

test('a note stays with its take, and an older take shows its moves without asking about them', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await page.getByRole('textbox', { name: 'Note on take 1' }).fill('head a hand to the left');
  await page.getByRole('button', { name: 'Shoot again' }).focus();
  await page.getByRole('radio', { name: 'Done', exact: true }).first().check();
  await dropFiles(page, [{ name: 'second.png', type: 'image/png', bytes: BYTES }]);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
  await page.getByRole('button', { name: /^Take 1/ }).click();
  await expect(page.getByRole('button', { name: 'Shoot again' })).toHaveCount(0);
  await expect(page.getByText('moves are answered at the newest')).toBeVisible();
  const notes = await page.evaluate(() =>
    (document.querySelector('evenfield-bench') as EvenfieldBench).takes.map(({ note }) => note),
  );
  expect(notes).toEqual(['head a hand to the left', '']);
});

test('inches are asked where inches are chosen', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await page.getByRole('combobox', { name: 'Unit of length' }).selectOption('inches');
  const moved = page.getByRole('textbox', { name: 'How far it was moved, move 1' });
  await moved.fill('a bit');
  await moved.press('Tab');
  await expect(page.getByText('“a bit” is no length: an unknown length stays.')).toBeVisible();
  await expect(moved).toHaveValue('');
  await expect(page.getByRole('radio', { name: 'I moved it', exact: true })).not.toBeChecked();
  await moved.fill('4');
  await moved.press('Tab');
  await expect(moved).toHaveValue('4 in');
  await expect(page.getByText('is no length')).toHaveCount(0);
  await expect(page.getByRole('radio', { name: 'I moved it', exact: true })).toBeChecked();
  await dropFiles(page, [{ name: 'second.png', type: 'image/png', bytes: BYTES }]);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
  const slide = (await done(page))[1]![0]!;
  if (slide.kind !== 'slide-lamp') throw new Error('a slide was expected');
  expect(Math.abs(Math.hypot(slide.rightMm!, slide.downMm!) - 101.6)).toBeLessThan(1e-9);
});

for (const [look, media] of [
  ['light', { colorScheme: 'light' }],
  ['dark', { colorScheme: 'dark' }],
  ['forced colours', { forcedColors: 'active' }],
] as const)
  test(`answered moves, two takes with a note and the set from the side pass axe in ${look}`, async ({
    page,
  }) => {
    await page.emulateMedia(media);
    await openBench(page);
    await chooseSample(page, 'Sheet lit off centre');
    await page.getByRole('radio', { name: 'Done', exact: true }).first().check();
    await page.getByRole('textbox', { name: 'Note on take 1' }).fill('head a hand to the left');
    expect(await violations(page)).toEqual([]);
    const spill = readFileSync(new URL('../../samples/room-spill.png', import.meta.url));
    await dropFiles(page, [{ name: 'spill.png', type: 'image/png', bytes: spill }]);
    await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible(A_READING);
    await page.getByRole('radio', { name: 'From the side' }).check();
    expect(await violations(page)).toEqual([]);
  });
