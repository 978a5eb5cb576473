import exifr from 'exifr';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { CorrectedPicture } from '../../../src/engine/correct/corrected-picture.ts';
import { writeTiff } from '../../../src/engine/export/write-tiff.ts';
import { tumblerExif } from './exif-of-camera.ts';
import { p3Profile } from './known-profiles.ts';
import { decoded, exifFacts, picture, sameCodes, wholeFile } from './read-back.ts';

describe('writeTiff(picture) is read back code by code by another decoder:', () => {
  for (const bitsPerSample of [8, 16] as const)
    for (const channels of [1, 2, 3, 4] as const)
      test(`${channels} channels of ${bitsPerSample} bits`, async () => {
        const given = picture({ channels, bitsPerSample });
        const back = await decoded(wholeFile(writeTiff(given)));
        expect(back.bits).toBe(bitsPerSample);
        expect(back.channels).toBe(channels);
        expect([back.metadata.width, back.metadata.height]).toEqual([150, 90]);
        expect(back.metadata.hasAlpha).toBe(channels % 2 === 0);
        expect(sameCodes(back.samples, given.samples)).toBe(true);
      });

  test('over many strips, the last one shorter', async () => {
    const given = picture({ widthPx: 2000, heightPx: 333, channels: 3 });
    const back = await decoded(wholeFile(writeTiff(given)));
    expect(sameCodes(back.samples, given.samples)).toBe(true);
  });
});

describe('writeTiff(picture) carries what the source says:', () => {
  test('the profile’s own bytes', async () => {
    const { metadata } = await decoded(wholeFile(writeTiff(picture({ iccProfile: p3Profile }))));
    expect(Buffer.compare(metadata.icc!, p3Profile)).toBe(0);
  });

  for (let orientation = 1; orientation <= 8; orientation++)
    test(`orientation ${orientation}`, async () => {
      const { metadata } = await decoded(wholeFile(writeTiff(picture({ orientation }))));
      expect(metadata.orientation).toBe(orientation);
    });

  for (const order of ['II', 'MM'] as const)
    test(`Exif and GPS, written ${order}`, async () => {
      const exif = tumblerExif(order, { orientation: 8 });
      const before = await exifFacts(exif);
      expect(Object.keys(before).length).toBeGreaterThan(20);
      const file = wholeFile(writeTiff(picture({ exif, orientation: 8, iccProfile: p3Profile })));
      expect(await exifFacts(file)).toMatchObject(before);
    });

  test('a maker’s note at its own offset, so that offsets inside it hold, and none of the other order', async () => {
    const makerNote = Buffer.from('A maker’s own note of some length, offsets and all');
    for (const [order, kept] of [
      ['II', true],
      ['MM', false],
    ] as const) {
      const exif = tumblerExif(order, { makerNote });
      const file = Buffer.from(wholeFile(writeTiff(picture({ exif }))));
      const at = Buffer.from(exif).indexOf(makerNote);
      expect(file.indexOf(makerNote)).toBe(kept ? at : -1);
      const found = (await exifr.parse(file, { makerNote: true })) as { makerNote?: Uint8Array };
      expect(found.makerNote && Buffer.from(found.makerNote)).toEqual(kept ? makerNote : undefined);
      const { metadata } = await decoded(file);
      expect(metadata.width).toBe(150);
    }
  });

  test('no thumbnail: it shows the picture as it was', async () => {
    const thumbnail = Buffer.from('ÿØ a small picture that is not wanted any more ÿÙ', 'latin1');
    const file = Buffer.from(wholeFile(writeTiff(picture({ exif: tumblerExif('II', { thumbnail }) }))));
    expect(file.includes(thumbnail)).toBe(false);
    expect((await sharp(file).metadata()).pages ?? 1).toBe(1);
  });

  test('a description, where one is asked for', async () => {
    const file = wholeFile(writeTiff(picture(), { description: '65535 is +1.25 stops' }));
    expect(await exifFacts(file)).toMatchObject({ ImageDescription: '65535 is +1.25 stops' });
  });

  test('nothing of Exif that is damaged, and the picture all the same', async () => {
    for (const exif of [
      Uint8Array.of(1, 2, 3),
      tumblerExif('II').subarray(0, 60),
      new Uint8Array(500).fill(0x49),
    ])
      expect(
        sameCodes((await decoded(wholeFile(writeTiff(picture({ exif }))))).samples, picture().samples),
      ).toBe(true);
  });
});

test('writeTiff(picture) of 24 megapixels copies no samples and takes hardly any time', () => {
  const samples = new Uint16Array(6000 * 4000 * 3);
  const large: CorrectedPicture = picture({
    widthPx: 6000,
    heightPx: 4000,
    samples,
    exif: tumblerExif('MM'),
  });
  let parts: Uint8Array[] = [];
  const times = Array.from({ length: 5 }, () => {
    const began = performance.now();
    parts = writeTiff(large);
    return performance.now() - began;
  });
  const ms = Math.min(...times); // the machine may be busy with something else
  console.log(`measured: 24 megapixels as a 16-bit TIFF, ${parts.length} pieces, in ${ms.toFixed(1)} ms`);
  expect(parts.at(-1)!.buffer).toBe(samples.buffer);
  expect(ms).toBeLessThan(100);
});
