import { crc32, deflateSync } from 'node:zlib';
import type { Route } from '@playwright/test';
import sharp from 'sharp';
import { chooseSample, expect, noteErrors, openBench, takeIds, test } from './open-bench.ts';

const WIDTH = 900;
const HEIGHT = 600;

function evenPicture(grey: number, width = WIDTH, height = HEIGHT) {
  return sharp({ create: { width, height, channels: 3, background: { r: grey, g: grey, b: grey } } });
}

/** A blank frame with noise, so that its JPEG is long enough to be cut in two. */
async function jpegFrame(): Promise<Buffer> {
  const pixels = Buffer.alloc(WIDTH * HEIGHT * 3);
  for (let i = 0; i < pixels.length; i++) pixels[i] = 150 + ((i * 7919) % 23);
  return sharp(pixels, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .jpeg({ quality: 90 })
    .toBuffer();
}

/** Hard-edged rectangles of many greys: whatever it shows, it is no empty background. */
async function subject(): Promise<Buffer> {
  const pixels = Buffer.alloc(WIDTH * HEIGHT * 3);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const grey = 30 + ((Math.floor(x / 23) * 97 + Math.floor(y / 31) * 57) % 190);
      pixels.fill(grey, (y * WIDTH + x) * 3, (y * WIDTH + x) * 3 + 3);
    }
  return sharp(pixels, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .png()
    .toBuffer();
}

/** A PNG of a few bytes whose header claims 60 000 × 60 000 pixels. */
function boastfulPng(): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(60_000, 0);
  header.writeUInt32BE(60_000, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const chunk = (name: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
    const length = Buffer.alloc(4);
    length.writeUInt32BE(data.length);
    const check = Buffer.alloc(4);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, check]);
  };
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.alloc(1000))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

const INPUTS: readonly [name: string, bytes: () => Promise<Buffer> | Buffer, code: string][] = [
  ['notes.txt', () => Buffer.from('Sheet at 60 cm, key at 90. Tumblers on Thursday.\n'), 'not-an-image'],
  ['empty.jpg', () => Buffer.alloc(0), 'not-an-image'],
  ['cut-short.jpg', async () => (await jpegFrame()).subarray(0, 20_000), 'unreadable-file'],
  ['notes-renamed.jpg', () => Buffer.from('These are words, whatever the name says.'), 'not-an-image'],
  ['tumbler-on-set.png', subject, 'not-blank'],
  ['lens-cap.png', () => evenPicture(0).png().toBuffer(), 'no-light'],
  ['burnt-out.png', () => evenPicture(255).png().toBuffer(), 'all-clipped'],
  ['three-by-three.png', () => evenPicture(180, 3, 3).png().toBuffer(), 'too-small'],
  ['boastful.png', boastfulPng, 'too-large'],
];

for (const [name, bytes, code] of INPUTS)
  test(`${name} gives the code ${code}, plain words in the page, and leaves the earlier take`, async ({
    page,
  }) => {
    await openBench(page);
    await chooseSample(page, 'Nearly perfect');
    const errors = await noteErrors(page);
    const verdict = await page.locator('.verdict').textContent();
    await page.getByLabel('Read another frame…').setInputFiles({ name, mimeType: '', buffer: await bytes() });
    const alert = page.getByRole('alert');
    await expect(alert).not.toBeEmpty({ timeout: 20_000 });
    const [error, ...more] = await errors();
    expect(more).toEqual([]);
    expect(error).toMatchObject({ code, fileName: name });
    expect(error!.message.length).toBeGreaterThan(30);
    expect(error!.message).not.toMatch(/undefined|\[object|Error:/);
    await expect(alert).toContainText(error!.message);
    await expect(alert).toContainText('The earlier takes are as they were.');
    expect(await takeIds(page)).toEqual(['take-1']);
    expect(await page.locator('.verdict').textContent()).toBe(verdict);
  });

test('a picture whose name has the wrong extension is read for what it is', async ({ page }) => {
  await openBench(page);
  const errors = await noteErrors(page);
  const buffer = await jpegFrame();
  await page
    .getByLabel('Choose a frame…')
    .setInputFiles({ name: 'frame.png', mimeType: 'image/png', buffer });
  await expect(page.locator('.verdict')).toBeVisible();
  expect(await errors()).toEqual([]);
});

for (const [what, answer, says] of [
  ['that the server has no more', (route: Route) => route.fulfill({ status: 404 }), /answered 404/],
  [
    'whose server does not answer',
    (route: Route) => route.abort('connectionrefused'),
    /could not be fetched/,
  ],
] as const)
  test(`a sample ${what} is told of plainly; the earlier take, its verdict and the set-up stay`, async ({
    page,
    watch,
  }) => {
    await openBench(page);
    await chooseSample(page, 'Nearly perfect');
    const width = page.getByRole('textbox', { name: 'Width of background that the frame shows' });
    await width.fill('123');
    await width.press('Tab');
    const verdict = await page.locator('.verdict').textContent();
    const picture = page.getByRole('button', { name: 'Room spill' }).locator('img');
    await picture.scrollIntoViewIfNeeded();
    await expect.poll(() => picture.evaluate((image: HTMLImageElement) => image.complete)).toBe(true);
    const errors = await noteErrors(page);
    await page.route('**/room-spill.png', answer);
    await page.getByRole('button', { name: 'Room spill' }).click();
    const alert = page.getByRole('alert');
    await expect(alert).toContainText('room-spill.png could not be fetched');
    await expect(alert).toContainText(says);
    await expect(alert).toContainText('Check the address, or choose the file itself.');
    await expect(alert).toContainText('The earlier takes are as they were.');
    expect(await errors()).toMatchObject([{ code: 'unreadable-file', fileName: 'room-spill.png' }]);
    expect(await takeIds(page)).toEqual(['take-1']);
    await expect(width).toHaveValue('123 cm');
    await expect(page.locator('.verdict')).toHaveText(verdict!);

    await page.unroute('**/room-spill.png');
    await page.getByRole('button', { name: 'Room spill' }).click();
    await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible();
    await expect(alert).toBeEmpty();
    // the browser itself complains of what did not come, and of nothing else
    expect(watch.complaints.splice(0)).toEqual([expect.stringMatching(/404|ERR_CONNECTION_REFUSED/)]);
  });
