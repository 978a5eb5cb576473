import { describe, expect, test } from 'vitest';
import { writeJpeg } from '../../../src/engine/export/write-jpeg.ts';
import { readJpegSegments } from '../../../src/engine/intake/jpeg-segments.ts';
import type { Platform } from '../../../src/engine/intake/platform.ts';
import { nodePlatform } from '../../node-platform.ts';
import { tumblerExif } from './exif-of-camera.ts';
import { p3Profile, srgbProfile } from './known-profiles.ts';
import { decoded, exifFacts, picture, wholeFile } from './read-back.ts';

const jpeg = async (asked: Parameters<typeof picture>[0], platform: Platform = nodePlatform) =>
  wholeFile(await writeJpeg(picture({ bitsPerSample: 8, ...asked }), platform));

describe('writeJpeg(picture)', () => {
  for (const channels of [1, 2, 3, 4] as const)
    test(`of ${channels} channels is read back within JPEG’s own rounding`, async () => {
      const given = picture({ channels, bitsPerSample: 8 });
      const { samples, metadata } = await decoded(await jpeg({ channels }));
      expect([metadata.width, metadata.height, metadata.hasAlpha]).toEqual([150, 90, false]);
      const colours = channels > 2 ? [0, 1, 2] : [0, 0, 0];
      let worst = 0;
      for (let pixel = 0; pixel < 150 * 90; pixel++)
        colours.forEach((from, colour) => {
          const off = samples[pixel * 3 + colour]! - given.samples[pixel * channels + from]!;
          worst = Math.max(worst, Math.abs(off));
        });
      console.log(`measured: JPEG of ${channels} channels, worst ${worst} codes off`);
      expect(worst).toBeLessThanOrEqual(4);
    });

  test('has full colour resolution', async () => {
    const { metadata } = await decoded(await jpeg({}));
    expect(metadata.chromaSubsampling).toBe('4:4:4');
  });

  test('refuses 16 bits, which a JPEG can’t hold', async () => {
    await expect(writeJpeg(picture(), nodePlatform)).rejects.toThrow(RangeError);
  });

  test('lets the platform’s refusal through', async () => {
    const platform = { ...nodePlatform, encodeJpeg: () => Promise.reject(new Error('no canvas')) };
    await expect(jpeg({}, platform)).rejects.toThrow('no canvas');
  });
});

describe('writeJpeg(picture) carries what the source says:', () => {
  for (const order of ['II', 'MM'] as const)
    test(`Exif, GPS, the maker’s note and orientation, written ${order}`, async () => {
      const makerNote = Buffer.from('A maker’s own note of some length, offsets and all');
      const exif = tumblerExif(order, { orientation: 3, makerNote });
      const file = await jpeg({ exif, orientation: 3, iccProfile: p3Profile });
      expect(await exifFacts(file)).toEqual(await exifFacts(exif));
      expect((await decoded(file)).metadata.orientation).toBe(3);
      const written = Buffer.from(readJpegSegments(file).exif!);
      expect(written.indexOf(makerNote)).toBe(Buffer.from(exif).indexOf(makerNote));
    });

  test('the profile’s own bytes, also one of several segments', async () => {
    const long = new Uint8Array(200_000);
    long.set(srgbProfile);
    new DataView(long.buffer).setUint32(0, long.length);
    for (const iccProfile of [p3Profile, srgbProfile, long])
      expect(Buffer.compare((await decoded(await jpeg({ iccProfile }))).metadata.icc!, iccProfile)).toBe(0);
  });

  test('and nothing that the encoder says of itself', async () => {
    const platform: Platform = {
      ...nodePlatform,
      async encodeJpeg(given, quality) {
        const inner = await nodePlatform.encodeJpeg(given, quality);
        const note = Buffer.from('\xff\xe2\0\x10ICC_PROFILE\0\x01\x01', 'latin1');
        return Buffer.concat([inner.subarray(0, 2), note, inner.subarray(2)]);
      },
    };
    const { metadata } = await decoded(await jpeg({}, platform));
    expect(metadata.icc).toBeUndefined();
    expect(metadata.exif).toBeUndefined();
  });

  test('what fits into a segment of Exif: neither a note nor a comment that is too large, and all the rest', async () => {
    const plain = tumblerExif('MM');
    const makerNote = new Uint8Array(70_000).fill(0x41);
    const withoutNote = await jpeg({ exif: tumblerExif('MM', { makerNote }), orientation: 6 });
    expect(await exifFacts(withoutNote)).toEqual(await exifFacts(plain));
    const comment = new Uint8Array(70_000).fill(0x42);
    const withoutBoth = await jpeg({ exif: tumblerExif('MM', { makerNote, comment }), orientation: 6 });
    expect(await exifFacts(withoutBoth)).toEqual(await exifFacts(plain));
  });
});
