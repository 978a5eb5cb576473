import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { CorrectedPicture } from '../../../src/engine/correct/corrected-picture.ts';
import { writeJpeg } from '../../../src/engine/export/write-jpeg.ts';
import { writePng } from '../../../src/engine/export/write-png.ts';
import { writeTiff } from '../../../src/engine/export/write-tiff.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotoNames, sharedPhotosPresent } from '../../shared-photos.ts';
import { decoded, exifFacts, picture, wholeFile } from './read-back.ts';

/** A file as it would be written if nothing about it had to be corrected: its upper rows, for time's sake. */
async function asWritten(bytes: Uint8Array): Promise<CorrectedPicture> {
  const stored = await decodeImage(bytes, nodePlatform);
  const { widthPx, bitsPerSample, orientation, iccProfile, exif = null } = stored;
  const isJpeg = stored.format === 'jpeg';
  const heightPx = Math.min(stored.heightPx, 64);
  const upper = stored.samples.subarray(0, widthPx * heightPx * stored.channels);
  const samples = isJpeg ? upper.filter((_, i) => i % 4 !== 3) : upper;
  const channels = isJpeg ? 3 : stored.channels;
  return { widthPx, heightPx, channels, bitsPerSample, samples, orientation, iccProfile, exif };
}

const WRITERS = {
  tiff: async (picture: CorrectedPicture) => writeTiff(picture),
  png: (picture: CorrectedPicture) => writePng(picture, nodePlatform),
  jpeg: (picture: CorrectedPicture) => writeJpeg(picture, nodePlatform),
};

/** Facts about how a file is laid out and a thumbnail that is left behind; PNG's own header counts among them. */
const ABOUT_STORAGE =
  /^(Thumbnail|Compression|YCbCr|Exif(Image)?(Width|Height)$|JPEGInterchange|PrintIM|MakerNote)/;

const names = sharedPhotosPresent
  ? ['orientation', 'linear-and-coded', 'sixteen-bit']
      .flatMap(sharedPhotoNames)
      .filter((name) => /\.(jpe?g|png)$/.test(name))
  : [];

describe.skipIf(!sharedPhotosPresent)('real files, written again as', () => {
  for (const format of ['tiff', 'png', 'jpeg'] as const)
    test(`${format}: profile, Exif and orientation are the source’s, whose bytes stay untouched`, async () => {
      expect(names.length).toBeGreaterThan(8);
      let facts = 0;
      for (const name of names) {
        const source = sharedPhoto(name);
        const digest = createHash('sha256').update(source).digest('hex');
        const given = await asWritten(source);
        if (format === 'jpeg' && given.bitsPerSample === 16) continue;
        const file = wholeFile(await WRITERS[format](given));
        const [before, after] = [await decoded(source), await decoded(file)];
        expect(after.metadata.orientation ?? 1, name).toBe(before.metadata.orientation ?? 1);
        expect(after.metadata.icc ?? null, name).toEqual(before.metadata.icc ?? null);
        const stated = Object.entries(await exifFacts(source)).filter(([fact]) => !ABOUT_STORAGE.test(fact));
        const isPng = name.endsWith('.png');
        if (!isPng) expect(await exifFacts(file), name).toMatchObject(Object.fromEntries(stated));
        facts += stated.length;
        expect(createHash('sha256').update(source).digest('hex'), name).toBe(digest);
      }
      console.log(`measured: ${names.length} real files as ${format}: ${facts} facts of Exif`);
      expect(facts).toBeGreaterThan(20);
    });

  test('a tiff, png and jpeg each: the bytes of every real profile', async () => {
    const profiles = sharedPhotoNames('colour-profiles');
    expect(profiles.length).toBeGreaterThan(8);
    for (const name of profiles) {
      const iccProfile = sharedPhoto(name);
      const channels = name.includes('Grey') ? 1 : 3;
      for (const [format, write] of Object.entries(WRITERS)) {
        if (channels === 1 && format === 'jpeg') continue; // which has three
        const file = wholeFile(await write(picture({ bitsPerSample: 8, channels, iccProfile })));
        expect(Buffer.compare((await decoded(file)).metadata.icc!, iccProfile), `${name} as ${format}`).toBe(
          0,
        );
      }
    }
  });
});
