import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Download, Page } from '@playwright/test';
import sharp from 'sharp';
import { decodeSrgb } from '../synthetic/code-thresholds.ts';
import { violations } from './axe-violations.ts';
import { A_READING, chooseSample, dropFiles, expect, openBench, test } from './open-bench.ts';
import { subjectFrame } from './subject-files.ts';

const NOTES = { name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('not a picture') };

async function openCorrection(page: Page): Promise<void> {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await expect(page.getByRole('heading', { name: 'Correct the frames' })).toBeVisible(A_READING);
}

async function choose(page: Page, ...files: { name: string; mimeType: string; buffer: Buffer }[]) {
  await page.getByLabel('Choose frames to correct…').setInputFiles(files);
}

/** Waits until the pictures show what was asked for. */
async function tried(page: Page): Promise<void> {
  await expect(page.getByRole('img', { name: 'Corrected', exact: true })).toBeVisible(A_READING);
  await expect(page.getByText(/^Trying it on/)).toHaveCount(0, A_READING);
}

/** Spread of the background of a downloaded frame in stops, over the blocks of 64 pixels above and beside the tumblers. */
async function backgroundOf(download: Download) {
  const { data, info } = await sharp(await download.path(), { limitInputPixels: false })
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  const levels: number[] = [];
  for (let top = 0; top + 64 <= 192; top += 64)
    for (let left = 0; left + 64 <= info.width; left += 64) {
      let sum = 0;
      for (let y = top; y < top + 64; y++)
        for (let x = left; x < left + 64; x++) {
          const at = (y * info.width + x) * info.channels;
          const [red, green, blue] = [0, 1, 2].map((i) => decodeSrgb(codes[at + i]! / 65535));
          sum += 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
        }
      levels.push(Math.log2(sum / 64 ** 2));
    }
  return { spreadEv: Math.max(...levels) - Math.min(...levels), levelEv: Math.max(...levels), info };
}

test('two frames are chosen, looked at, corrected and downloaded, and are as even as was said', async ({
  page,
}) => {
  await openCorrection(page);
  await choose(page, await subjectFrame('tumblers-1.jpg', 1), await subjectFrame('tumblers-2.jpg', 2));
  await tried(page);
  const said = await page.getByText(/^Corrected\. Background within/).textContent();
  const shownEv = Number(/within ([\d.]+)/.exec(said!)![1]);
  const before = await page.getByText(/^As shot\. Background within/).textContent();
  expect(Number(/within ([\d.]+)/.exec(before!)![1])).toBeGreaterThan(0.8);
  expect(await violations(page)).toEqual([]);

  const downloads: Download[] = [];
  page.on('download', (download) => downloads.push(download));
  await page.getByRole('button', { name: 'Correct all 2 frames' }).click();
  await expect(page.getByText(/^2 of 2 frames corrected and handed to the browser’s downloads/)).toBeVisible(
    A_READING,
  );
  await expect.poll(() => downloads.length).toBe(2);
  expect(downloads.map((download) => download.suggestedFilename()).sort()).toEqual([
    'tumblers-1.corrected.tif',
    'tumblers-2.corrected.tif',
  ]);
  for (const download of downloads) {
    const { spreadEv, info } = await backgroundOf(download);
    console.log(
      `measured: ${download.suggestedFilename()}: background within ${spreadEv.toFixed(4)} EV, ${shownEv} shown`,
    );
    expect([info.width, info.height]).toEqual([900, 600]);
    expect(spreadEv).toBeLessThan(0.02);
    expect(Math.abs(spreadEv - shownEv)).toBeLessThan(0.008);
  }
});

test('a level of one’s own is kept to, and a slip is told beside it', async ({ page }) => {
  await openCorrection(page);
  await choose(page, await subjectFrame('tumblers.jpg', 1));
  await page.getByRole('combobox', { name: 'Level of the background' }).selectOption('a level of my own');
  const level = page.getByRole('textbox', { name: 'Stops below white' });
  await level.fill('half');
  await level.press('Tab');
  await expect(page.getByText('“half” is no level')).toBeVisible();
  await expect(level).toHaveValue('0.3');
  await level.fill('0,5');
  await level.press('Tab');
  await expect(level).toHaveValue('0.5');
  await expect(page.getByText('“half” is no level')).toHaveCount(0);
  await page.getByRole('combobox', { name: 'Format of the corrected frames' }).selectOption('16-bit PNG');
  await tried(page);
  await expect(page.getByText(/^Corrected\. .*0\.5\sstop below white/)).toBeVisible();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Correct this frame' }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toBe('tumblers.corrected.png');
  const { levelEv } = await backgroundOf(download);
  console.log(`measured: background brought to ${levelEv.toFixed(3)} EV, −0.5 asked for`);
  expect(Math.abs(levelEv + 0.5)).toBeLessThan(0.03);
});

test('a frame that can’t be read and a black one are told apart from those that are done', async ({
  page,
}) => {
  await openCorrection(page);
  await choose(page, await subjectFrame('tumblers.jpg', 1), NOTES, await subjectFrame('unlit.jpg', 'black'));
  await expect(page.getByText('Can’t be corrected: The file holds text')).toBeVisible(A_READING);
  await expect(page.getByText('Can’t be corrected: The frame is black')).toBeVisible(A_READING);
  await page.getByRole('button', { name: 'Correct this frame' }).click();
  await expect(page.getByText(/^1 of 3 frames corrected.*; 2 refused/)).toBeVisible(A_READING);
  await page.getByRole('button', { name: 'Leave out notes.txt' }).click();
  await expect(page.getByText('notes.txt')).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Leave out unlit.jpg' })).toBeVisible();
});

test('the background alone: a stroke of the brush leaves as shot what it says, by keyboard and by pointer', async ({
  page,
}) => {
  await openCorrection(page);
  await choose(page, await subjectFrame('tumblers.jpg', 1));
  await page
    .getByRole('combobox', { name: 'What the unevenness is taken out of' })
    .selectOption('the background only');
  await tried(page);
  const picture = page.getByRole('application', {
    name: /^As shot: the arrow keys move the spot, Enter paints/,
  });
  const hatched = () => picture.locator('path[fill="url(#left)"]').getAttribute('d');
  await expect(picture.locator('path[fill="url(#left)"]')).toHaveCount(1, A_READING);
  const found = await hatched();
  await picture.press('ArrowUp');
  await picture.press('Enter');
  await expect(page.getByRole('button', { name: 'Take the last stroke back' })).toBeVisible();
  await tried(page);
  await expect.poll(hatched, A_READING).not.toBe(found);
  await page.getByRole('button', { name: 'Take the last stroke back' }).click();
  await expect.poll(hatched, A_READING).toBe(found);
  await picture.scrollIntoViewIfNeeded();
  const box = (await picture.boundingBox())!;
  await page.mouse.move(box.x + 0.1 * box.width, box.y + 0.2 * box.height);
  await page.mouse.down();
  await page.mouse.move(box.x + 0.3 * box.width, box.y + 0.25 * box.height, { steps: 4 });
  await page.mouse.up();
  await expect.poll(hatched, A_READING).not.toBe(found);
});

test('correcting can be cancelled; what was not written is said so', async ({ page }) => {
  await openCorrection(page);
  const frames = await Promise.all(
    [1, 2, 3, 4, 5, 6].map((seed) => subjectFrame(`tumblers-${seed}.jpg`, seed)),
  );
  await choose(page, ...frames);
  await tried(page);
  await page.getByRole('button', { name: 'Correct all 6 frames' }).click();
  await page.getByRole('button', { name: 'Cancel correcting' }).click();
  await expect(page.getByText(/^\d of 6 frames corrected.* cancelled\.$/)).toBeVisible(A_READING);
  await expect(page.getByText('Cancelled; nothing of it was written.').first()).toBeVisible();
  await expect(page.getByRole('button', { name: 'Correct all 6 frames' })).toBeEnabled();
});

test('frames dropped on the section are frames to correct, and no take', async ({ page }) => {
  await openCorrection(page);
  const { name, mimeType, buffer } = await subjectFrame('dropped.jpg', 1);
  await dropFiles(page, [{ name, type: mimeType, bytes: buffer }], 'evenfield-correct');
  await expect(page.getByRole('button', { name: 'dropped.jpg' }).first()).toBeVisible();
  await expect(page.getByRole('button', { name: /^Take 2/ })).toHaveCount(0);
});

test('frames of a chosen folder are written into a chosen folder, none over another', async ({ page }) => {
  const frame = await subjectFrame('tumblers.jpg', 1);
  await page.addInitScript((base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const file = (name: string) => ({ kind: 'file', getFile: async () => new File([bytes], name) });
    Object.assign(window, {
      showDirectoryPicker: async ({ mode }: { mode: string }) => {
        const written = await navigator.storage.getDirectory();
        if (mode === 'readwrite') return await written.getDirectoryHandle('set', { create: true });
        const entries = [
          file('b.jpg'),
          { kind: 'directory' },
          file('notes.txt'),
          file('a.jpg'),
          file('a.jpeg'),
        ];
        return { values: () => entries.values() };
      },
    });
  }, frame.buffer.toString('base64'));
  await openCorrection(page);
  await page.getByRole('button', { name: 'Choose a whole folder…' }).click();
  await expect(
    page.getByText(
      '1 other file in it is no picture that is read here, or an earlier result, and was left out.',
    ),
  ).toBeVisible();
  await page
    .getByRole('combobox', { name: 'Where corrected frames are written' })
    .selectOption('a folder that I choose');
  await tried(page);
  await page.getByRole('button', { name: 'Correct all 3 frames' }).click();
  await expect(page.getByText(/^3 of 3 frames corrected and written to the folder set/)).toBeVisible(
    A_READING,
  );
  const names = await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const names: string[] = [];
    for await (const name of (await root.getDirectoryHandle('set')).keys()) names.push(name);
    return names.sort();
  });
  expect(names).toEqual(['a.corrected-2.tif', 'a.corrected.tif', 'b.corrected.tif']);
});

test('without a folder picker a folder is chosen by the browser’s own means, and downloads are left', async ({
  page,
}) => {
  await page.addInitScript(() => {
    Object.assign(window, { showDirectoryPicker: undefined });
  });
  await openCorrection(page);
  await expect(page.getByRole('combobox', { name: 'Where corrected frames are written' })).toHaveCount(0);
  const folder = mkdtempSync(join(tmpdir(), 'frames-'));
  writeFileSync(join(folder, 'tumblers.jpg'), (await subjectFrame('tumblers.jpg', 1)).buffer);
  writeFileSync(join(folder, 'notes.txt'), 'not a picture');
  await page.getByLabel('Choose a whole folder…').setInputFiles(folder);
  await expect(
    page.getByText(
      '1 other file in it is no picture that is read here, or an earlier result, and was left out.',
    ),
  ).toBeVisible();
  await tried(page);
  await expect(page.getByRole('button', { name: 'Correct this frame' })).toBeEnabled();
});

test('the gain picture and the straight ramp can be taken elsewhere', async ({ page }) => {
  await openCorrection(page);
  const saved = async (button: string) => {
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: button }).click();
    return await downloading;
  };
  const ramp = await saved('Save the straight ramp');
  expect(ramp.suggestedFilename()).toBe('sheet-off-centre.ramp.txt');
  const figures = readFileSync(await ramp.path(), 'utf8');
  expect(figures).toContain('To take it out, lay a ramp');
  const angle = await page.getByText(/^167°/).textContent();
  expect(figures).toContain(`angle:         ${angle!.slice(0, 2)}`);
  const gains = await saved('Save the gain picture');
  expect(gains.suggestedFilename()).toBe('sheet-off-centre.gains.tif');
  const { width, height, depth, channels } = await sharp(await gains.path()).metadata();
  expect([width, height, depth, channels]).toEqual([900, 600, 'ushort', 3]);
});

test('the sample’s own frame can be tried', async ({ page }) => {
  await openCorrection(page);
  await page.getByRole('button', { name: 'Try it on a sample frame' }).click();
  await tried(page);
  await expect(page.getByText('tumblers-before-the-sheet.jpg').first()).toBeVisible();
});

for (const colorScheme of ['light', 'dark'] as const)
  test(`at 390 px in ${colorScheme} nothing scrolls sideways, and all passes axe`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width: 390, height: 844 });
    await openCorrection(page);
    await choose(page, { ...(await subjectFrame('tumblers.jpg', 1)), name: `${'long-'.repeat(30)}name.jpg` });
    await page
      .getByRole('combobox', { name: 'What the unevenness is taken out of' })
      .selectOption('the background only');
    await tried(page);
    expect(await violations(page)).toEqual([]);
    const [content, window] = await page.evaluate(() => [
      document.documentElement.scrollWidth,
      document.documentElement.clientWidth,
    ]);
    expect(content).toBeLessThanOrEqual(window!);
  });
