import type { Page } from '@playwright/test';
import exifr from 'exifr';
import sharp from 'sharp';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { decodeSrgb } from '../synthetic/code-thresholds.ts';
import { toJpeg } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { expect, noteErrors, openBench, test } from './open-bench.ts';

/** Reads a frame, makes its profile and corrects the frame by it, as somebody else's page would. */
async function corrected(
  page: Page,
  source: Uint8Array | string,
  formats: readonly ('tiff' | 'png' | 'jpeg')[],
) {
  const asked = typeof source === 'string' ? source : { base64: Buffer.from(source).toString('base64') };
  const files = await page.evaluate(
    async ([given, wanted]) => {
      const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
      const frame =
        typeof given === 'string'
          ? given
          : new File([Uint8Array.from(atob(given.base64), (c) => c.charCodeAt(0))], 'blank.jpg');
      const profile = await bench.profile(await bench.read(frame));
      const encode = async (blob: Blob) => {
        const bytes = new Uint8Array(await blob.arrayBuffer());
        let text = '';
        for (let at = 0; at < bytes.length; at += 30_000)
          text += String.fromCharCode(...bytes.subarray(at, at + 30_000));
        return { type: blob.type, base64: btoa(text) };
      };
      const made = [];
      for (const format of wanted) made.push(await encode(await bench.correct(frame, profile, { format })));
      return made;
    },
    [asked, formats] as const,
  );
  return files.map(({ type, base64 }) => ({ type, bytes: Buffer.from(base64, 'base64') }));
}

/** Stops from the darkest to the brightest of 64-pixel blocks, of any channel's mean. */
async function spreadEv(file: Buffer): Promise<number> {
  const { data, info } = await sharp(file, { ignoreIcc: true })
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  let [low, high] = [Number.POSITIVE_INFINITY, 0];
  for (let top = 0; top + 64 <= info.height; top += 64)
    for (let left = 0; left + 64 <= info.width; left += 64)
      for (const channel of [0, 1, 2]) {
        let sum = 0;
        for (let y = top; y < top + 64; y++)
          for (let x = left; x < left + 64; x++)
            sum += decodeSrgb(codes[(y * info.width + x) * info.channels + channel]! / 65535);
        low = Math.min(low, sum);
        high = Math.max(high, sum);
      }
  return Math.log2(high / low);
}

test('correct(source, profile, options) makes a sample even, in each format', async ({ page }) => {
  await openBench(page);
  const files = await corrected(page, 'sheet-off-centre.jpg', ['tiff', 'png', 'jpeg']);
  expect(files.map(({ type }) => type)).toEqual(['image/tiff', 'image/png', 'image/jpeg']);
  const before = await spreadEv(await sharp('samples/sheet-off-centre.jpg').toBuffer());
  for (const [i, depth] of ['ushort', 'ushort', 'uchar'].entries()) {
    const { bytes, type } = files[i]!;
    const metadata = await sharp(bytes).metadata();
    expect(metadata.depth).toBe(depth);
    const after = await spreadEv(bytes);
    console.log(`measured: ${type}: ${before.toFixed(3)} EV before, ${after.toFixed(4)} EV after`);
    expect(before).toBeGreaterThan(0.5);
    expect(after).toBeLessThan(0.05);
  }
  // Chromium's own encoder, at its best: colour at full resolution, nothing about itself
  const { chromaSubsampling, icc } = await sharp(files[2]!.bytes).metadata();
  expect(chromaSubsampling).toBe('4:4:4');
  expect(icc).toBeUndefined();
});

test('correct(source, profile) keeps profile, Exif and orientation of the source', async ({ page }) => {
  await openBench(page);
  const { field } = randomField(5, { family: 'quadratic', spreadEv: 1, peak: 0.7 });
  const frame = renderFrame(field, {
    widthPx: 480,
    heightPx: 320,
    bits: 8,
    curve: 'srgb',
    electronsAtFull: 40_000,
    seed: 3,
  });
  const grey = sharp({ create: { width: 8, height: 8, channels: 3, background: 'grey' } });
  const { icc } = await sharp(await grey.withIccProfile('srgb').jpeg().toBuffer()).metadata();
  const exif = { orientation: 6, iso: 200, fNumber: [80, 10], takenAt: '2026:03:01 10:20:30' } as const;
  const source = await toJpeg(frame, { quality: 95, chroma: '4:4:4', exif, icc: new Uint8Array(icc!) });
  for (const { type, bytes } of await corrected(page, source, ['tiff', 'png', 'jpeg'])) {
    const metadata = await sharp(bytes).metadata();
    expect([metadata.width, metadata.height, metadata.orientation], type).toEqual([480, 320, 6]);
    expect(metadata.icc!.equals(icc!), type).toBe(true);
    expect(await exifr.parse(bytes, { translateValues: false }), type).toMatchObject({
      ISO: 200,
      FNumber: 8,
      Orientation: 6,
    });
  }
});

test('correct(source, profile) says why it can’t, by rejection and event, and goes on', async ({ page }) => {
  await openBench(page);
  const errors = await noteErrors(page);
  const outcome = await page.evaluate(async () => {
    const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    const profile = await bench.profile(await bench.read('nearly-perfect.png'));
    const codeOf = (work: Promise<unknown>) =>
      work.then(
        () => 'done',
        ({ code, name }) => code ?? name,
      );
    return [
      await codeOf(bench.correct(new File(['no picture'], 'notes.txt'), profile)),
      await codeOf(
        bench.correct('nearly-perfect.png', { ...profile, schema: 'evenfield.profile/2' } as never),
      ),
      await codeOf(bench.correct('nearly-perfect.png', profile, { format: 'gif' } as never)),
      await codeOf(bench.correct('nearly-perfect.png', profile)),
    ];
  });
  expect(outcome).toEqual(['not-an-image', 'wrong-profile', 'RangeError', 'done']);
  expect(await errors()).toMatchObject([
    { code: 'not-an-image', fileName: 'notes.txt' },
    { code: 'wrong-profile', fileName: 'nearly-perfect.png' },
  ]);
});
