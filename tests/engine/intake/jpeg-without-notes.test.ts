import sharp from 'sharp';
import { expect, test } from 'vitest';
import { readJpegSegments } from '../../../src/engine/intake/jpeg-segments.ts';
import { jpegWithoutNotes } from '../../../src/engine/intake/jpeg-without-notes.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';
import { noiseSamples } from './png-bytes.ts';

test('jpegWithoutNotes(bytes) drops Exif and profile and leaves every sample as it was', async () => {
  const noise = Uint8Array.from(noiseSamples(60 * 40 * 3, 8));
  const tagged = new Uint8Array(
    await sharp(noise, { raw: { width: 60, height: 40, channels: 3 } })
      .withIccProfile('p3')
      .withMetadata({ orientation: 6 })
      .jpeg({ progressive: true })
      .toBuffer(),
  );
  const before = readJpegSegments(tagged);
  expect([before.exif === null, before.iccProfile === null]).toEqual([false, false]);
  const bare = jpegWithoutNotes(tagged);
  expect(readJpegSegments(bare)).toMatchObject({ exif: null, iccProfile: null, widthPx: 60, heightPx: 40 });
  expect(await nodePlatform.decodePicture(bare, 'image/jpeg')).toEqual(
    await nodePlatform.decodePicture(tagged, 'image/jpeg'),
  );
});

test('jpegWithoutNotes(bytes) keeps the segments that say how samples are coded', () => {
  const segment = (marker: number) => [0xff, marker, 0, 4, 1, 2];
  const kept = [0xe0, 0xee, 0xdb, 0xc0, 0xc4].flatMap(segment);
  const dropped = [0xe1, 0xe2, 0xed, 0xef, 0xfe].flatMap(segment);
  const scan = [0xff, 0xda, 0, 4, 1, 2, 9, 9, 0xff, 0xd9];
  expect(jpegWithoutNotes(Uint8Array.of(0xff, 0xd8, ...kept, ...dropped, ...scan))).toEqual(
    Uint8Array.of(0xff, 0xd8, ...kept, ...scan),
  );
});

test('jpegWithoutNotes(bytes) ends on anything', () => {
  for (const bytes of [
    [],
    [0xff, 0xd8],
    [0xff, 0xd8, 0xff, 0xe1, 0xff, 0xff],
    [0xff, 0xd8, 0xff, 0xe1, 0, 0, 0, 0],
  ])
    expect(jpegWithoutNotes(Uint8Array.from(bytes)).length).toBeLessThanOrEqual(bytes.length);
});

test.skipIf(!sharedPhotosPresent)('jpegWithoutNotes(bytes) takes the turn out of a real file', async () => {
  const bytes = sharedPhoto('orientation/landscape-6.jpg');
  expect(readJpegSegments(jpegWithoutNotes(bytes)).exif).toBeNull();
});
