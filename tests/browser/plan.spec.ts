import { readFileSync } from 'node:fs';
import type { Locator } from '@playwright/test';
import { toPng } from '../synthetic/encode.ts';
import { sampleFrame } from '../synthetic/samples/sample-files.ts';
import { SHEET_SAMPLES } from '../synthetic/samples/sheet-samples.ts';
import { withLamps } from '../synthetic/samples/tumbler-studio.ts';
import { fileChoosers } from './file-choosers.ts';
import { A_READING, chooseSample, expect, openBench, test } from './open-bench.ts';

/** The sample whose light is too close, shot once more with the light at another distance behind the sheet. */
function shotFrom(distanceMm: number) {
  const sample = SHEET_SAMPLES.find(({ title }) => title === 'Light too close')!;
  const rendered = sampleFrame({ ...sample, set: withLamps(sample.set, () => ({ distanceMm })) });
  return { name: 'farther.png', mimeType: 'image/png', buffer: Buffer.from(toPng(rendered)) };
}

test('the plan shows the set from above and, where a height matters, from the side', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Room spill');
  // its one move is against spill from above: the view that shows it comes first
  await expect(
    page.getByRole('img', { name: 'Plan of the set, seen from the side' }),
  ).toHaveAccessibleDescription(
    /the frame, 28 cm high; .*; the light stands [^;]* the middle, give or take [\d.]+ cm, and \d+ cm behind the sheet, .*; 1\. block the spill/,
  );
  await page.getByRole('radio', { name: 'From the side' }).focus();
  await page.keyboard.press('ArrowLeft');
  await expect(
    page.getByRole('img', { name: 'Plan of the set, seen from above' }),
  ).toHaveAccessibleDescription(
    /camera, 150 cm; the sheet: the frame, 42 cm wide; hottest here; the light stands .* cm behind the sheet/,
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
  await choosers[0]!.setFiles(shotFrom(640));
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible(A_READING);
  const plan = page.getByRole('img', { name: /^Plan of the set/ });
  await expect(plan).toHaveAccessibleDescription(/and 6\d cm behind the sheet, give or take \d+ cm;/);
  await page.getByRole('button', { name: /^Take 1/ }).click();
  await expect(plan).toHaveAccessibleDescription(/and 3[1-3] cm behind the sheet, give or take \d+ cm;/);
});

test('the light stands on the plan where the frame itself puts it, with its ± and where it points', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const plan = page.getByRole('img', { name: 'Plan of the set, seen from above' });
  await expect(plan).toHaveAccessibleDescription(/; the light stands about .*; it points /);
  const says = (await plan.locator('desc').textContent())!;
  const found =
    /stands about ([\d.]+) cm left of the middle, give or take ([\d.]+) cm, and ([\d.]+) cm behind the sheet, give or take ([\d.]+) cm/.exec(
      says,
    );
  expect(found, says).not.toBeNull();
  const [left, leftGive, behind, behindGive] = found!.slice(1).map(Number);
  // the sample was made with the light 11 cm left of the middle and 60 cm behind the sheet
  expect(Math.abs(left! - 11)).toBeLessThanOrEqual(leftGive! + 0.5);
  expect(Math.abs(behind! - 60)).toBeLessThanOrEqual(behindGive! + 0.5);
  expect(leftGive).toBeLessThan(5);
  console.log(
    `measured: the light is found ${left} ± ${leftGive} cm left and ${behind} ± ${behindGive} cm behind`,
  );
  await expect(page.getByText('may stand anywhere in the oval')).toBeVisible();
  await expect(plan.locator('.spread')).toHaveCount(1);
  await page.getByRole('combobox', { name: 'Unit of length' }).selectOption('inches');
  await expect(plan).toHaveAccessibleDescription(/stands about 4(\.\d)? in left of the middle/);
});

/** What of the plan's notes is cut off by its edge or lies on another note, as drawn. */
function noteFaults(plan: Locator): Promise<string[]> {
  return plan.evaluate((drawing) => {
    const edge = drawing.getBoundingClientRect();
    const faults: string[] = [];
    const seen: { words: string; box: DOMRect }[] = [];
    for (const note of drawing.querySelectorAll('text')) {
      const [words, box] = [note.textContent ?? '', note.getBoundingClientRect()];
      const past = Math.max(
        edge.left - box.left,
        box.right - edge.right,
        edge.top - box.top,
        box.bottom - edge.bottom,
      );
      if (past > 1) faults.push(`${words}: ${past.toFixed(1)} px past the edge`);
      for (const other of seen) {
        const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
        const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
        if (across > 1 && down > 1) faults.push(`${words}: on ${other.words}`);
      }
      seen.push({ words, box });
    }
    return seen.length > 2 ? faults : ['no notes'];
  });
}

const SAMPLES: readonly { title: string }[] = JSON.parse(
  readFileSync(new URL('../../samples/samples.json', import.meta.url), 'utf8'),
);
for (const [name, width] of [
  ['wide', 1440],
  ['narrow', 390],
] as const)
  test(`no note of a sample’s plan is cut off or lies on another, ${name}`, async ({ page }) => {
    await page.setViewportSize({ width, height: 900 });
    await openBench(page);
    for (const { title } of SAMPLES) {
      await chooseSample(page, title);
      const plan = page.getByRole('img', { name: /^Plan of the set/ });
      await expect(plan).toBeVisible();
      const sides = page.getByRole('radio', { name: /^From (above|the side)$/ });
      for (let side = 0; side < Math.max(1, await sides.count()); side++) {
        if ((await sides.count()) > 0) await sides.nth(side).check();
        expect(await noteFaults(plan), `${title}, view ${side + 1}`).toEqual([]);
      }
    }
  });

test('where the type is large for the screen, what the plan’s notes say stands under it at full size', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const words = page.getByText(/^From above: camera, 150 cm; .* cm left of the middle/).last();
  await expect(words).toBeHidden();
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '200%';
  });
  await expect(words).toBeVisible();
  expect(await words.evaluate((paragraph) => getComputedStyle(paragraph).fontSize)).toBe('32px');
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
});
