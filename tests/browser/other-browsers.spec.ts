import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { A_READING, chooseSample, expect, openBench, test, waitForVerdict } from './open-bench.ts';
import { beforeWorkers, takeAway } from './without-apis.ts';

const figures = (page: Page) =>
  page.evaluate(() => {
    const { reading } = document.querySelector('evenfield-bench')!.takes.at(-1)!;
    const { falloff, tint, frame } = reading;
    return { evMap: falloff.evMap, uPrimeMap: tint.uPrimeMap, sha256: frame.sha256 };
  });
const fileOf = (name: string, as = name) => ({
  name: as,
  mimeType: 'image/x',
  buffer: readFileSync(new URL(`../../samples/${name}`, import.meta.url)),
});

/** One that alters what pages read off a canvas. */
const ALTERED_CANVAS = `
const read = OffscreenCanvasRenderingContext2D.prototype.getImageData;
OffscreenCanvasRenderingContext2D.prototype.getImageData = function (...where) {
  const image = read.apply(this, where);
  image.data[5] ^= 1;
  return image;
};`;

test('without a decoder of pictures a JPEG is read by a canvas, alike to the last digit', async ({
  page,
  context,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const usual = await figures(page);
  const other = await context.newPage();
  await takeAway(other, { inPage: ['ImageDecoder'], inWorker: ['ImageDecoder'] });
  await openBench(other);
  await chooseSample(other, 'Sheet lit off centre');
  const workers = other.workers();
  expect(await workers[0]!.evaluate(() => 'ImageDecoder' in globalThis)).toBe(false);
  const without = await figures(other);
  const worst = Math.max(...usual.evMap.map((ev, i) => Math.abs(ev! - without.evMap[i]!)));
  console.log(`measured: by a canvas instead of the decoder, the falloff differs by ${worst} EV at most`);
  expect(without).toEqual(usual);
});

test('what can’t be read or unpacked is refused for what the browser lacks, and not as damaged', async ({
  page,
  context,
}) => {
  const lacking = ['ImageDecoder', 'OffscreenCanvas', 'DecompressionStream'];
  await takeAway(page, { inWorker: lacking });
  await openBench(page);
  const alert = page.getByRole('alert');
  await page.getByLabel('Choose a frame…').setInputFiles(fileOf('sheet-off-centre.jpg'));
  await expect(alert).toContainText(
    'This browser is too old to read such a picture: it lacks OffscreenCanvas. Use a newer one, or export it as a 16-bit PNG or TIFF.',
  );
  await page.getByLabel('Choose a frame…').setInputFiles(fileOf('nearly-perfect.png'));
  await expect(alert).toContainText(
    'This browser is too old to unpack this file: it lacks DecompressionStream. Use a newer one, or export it as a TIFF without compression.',
  );

  // one that alters what pages read off a canvas
  const other = await context.newPage();
  await takeAway(other, { inWorker: ['ImageDecoder'] });
  await other.unroute('**/*.worker-*.js');
  await beforeWorkers(other, `delete globalThis.ImageDecoder;${ALTERED_CANVAS}`);
  await openBench(other);
  await other.getByLabel('Choose a frame…').setInputFiles(fileOf('sheet-off-centre.jpg'));
  await expect(other.getByRole('alert')).toContainText(
    'This browser alters pictures that a page reads, to keep it from being recognised; light can’t be measured on them.',
  );
  await other.getByLabel('Choose a frame…').setInputFiles(fileOf('nearly-perfect.png'));
  await waitForVerdict(other); // which nobody but this tool decodes
});

/** A browser whose camera shows nothing but grey, and whose pictures are taken off a video. */
const withGreyCamera = async (page: Page) => {
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = async () => {
      const canvas = document.createElement('canvas');
      const context = canvas.getContext('2d')!;
      const draw = () => {
        context.fillStyle = '#808080';
        context.fillRect(0, 0, canvas.width, canvas.height);
        requestAnimationFrame(draw);
      };
      draw();
      return canvas.captureStream();
    };
  });
  await takeAway(page, { inPage: ['MediaStreamTrackProcessor'] });
};
const look = (page: Page) => page.getByRole('button', { name: 'Look through a camera…' }).click();

test('where no canvas can be relied on, neither a camera nor a JPEG that can’t be written is blamed', async ({
  page,
  context,
}) => {
  await withGreyCamera(page);
  await beforeWorkers(page, 'delete globalThis.OffscreenCanvas;');
  await openBench(page);
  await look(page);
  await expect(page.getByRole('alert').first()).toContainText(
    'This browser is too old to measure a camera’s pictures: it lacks OffscreenCanvas.',
  );
  await chooseSample(page, 'Sheet lit off centre');
  const told = await page.evaluate(async () => {
    const bench = document.querySelector('evenfield-bench')!;
    const profile = await bench.profile(bench.takes[0]!.reading);
    const source = new URL('sheet-off-centre.jpg', document.baseURI).href;
    return bench.correct(source, profile, { format: 'jpeg' }).catch((error: Error) => error.message);
  });
  expect(told).toMatch(
    /^A JPEG of .* can’t be encoded here \(this browser is too old for it: it lacks OffscreenCanvas\)\. Write it as TIFF or PNG\.$/,
  );

  const other = await context.newPage();
  await withGreyCamera(other);
  await beforeWorkers(other, ALTERED_CANVAS);
  await openBench(other);
  await look(other);
  await expect(other.getByRole('alert').first()).toContainText(
    'This browser alters pictures that a page reads, to keep it from being recognised; a camera’s can’t be measured then',
  );
});

test('without folders, each way that needs them says so or takes files instead', async ({ page }) => {
  await takeAway(page, {
    inPage: [
      'showDirectoryPicker',
      'FileSystemObserver',
      'DataTransferItem.prototype.getAsFileSystemHandle',
      'MediaDevices.prototype.getUserMedia',
    ],
  });
  await openBench(page);
  await expect(
    page.getByText('This browser hands out no folders, so that none can be followed'),
  ).toBeVisible();
  await expect(page.getByRole('button', { name: 'Follow a folder…' })).toHaveCount(0);
  await expect(page.getByLabel('Sort a shoot…')).toHaveAttribute('webkitdirectory', '');
  await expect(page.getByRole('button', { name: 'Look through a camera…' })).toBeDisabled();
  await expect(page.getByText('This page may use no camera here')).toBeVisible();
  await page.evaluate(() => {
    DataTransferItem.prototype.webkitGetAsEntry = () => ({ isDirectory: true }) as FileSystemEntry;
    const transfer = new DataTransfer();
    transfer.items.add(new File([], 'tethered'));
    for (const name of ['dragover', 'drop'])
      document
        .querySelector('main')!
        .dispatchEvent(new DragEvent(name, { dataTransfer: transfer, bubbles: true, cancelable: true }));
  });
  await expect(page.getByText('A folder was dropped. This browser hands out no folders')).toBeVisible();
  await chooseSample(page, 'Nearly perfect');
  await expect(page.getByLabel('Choose a whole folder…')).toHaveAttribute('webkitdirectory', '');
  await page.getByLabel('Choose frames to correct…').setInputFiles(fileOf('nearly-perfect.png', 'a.png'));
  await expect(page.getByText(/into\s+the browser’s downloads/)).toBeVisible(A_READING);
});

test('without locks, promises of storage, an order of tasks or a secure address takes are kept, and what that costs is said', async ({
  page,
}) => {
  await takeAway(page, {
    inPage: [
      'Navigator.prototype.locks',
      'Navigator.prototype.storage',
      'Scheduler.prototype.postTask',
      'Crypto.prototype.randomUUID',
      'Crypto.prototype.subtle',
    ],
    inWorker: ['Crypto.prototype.subtle'],
  });
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await expect(page.getByRole('button', { name: 'Print the record…' })).toBeVisible();
  expect((await figures(page)).sha256).toBeNull();
  await page.waitForTimeout(1000);
  await page.reload();
  await expect(page.getByText('The browser may clear these away when it runs short of room')).toBeVisible();
  await expect(page.getByText('It can’t tell whether another page has them open')).toBeVisible();
  await page.getByRole('button', { name: /^Go on with 1 take/ }).click();
  await waitForVerdict(page);
});
