import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { joinIccSegments } from '../../../src/engine/intake/join-icc-segments.ts';
import { readJpegSegments } from '../../../src/engine/intake/jpeg-segments.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotoNames, sharedPhotosPresent } from '../../shared-photos.ts';
import { join } from './png-bytes.ts';
import { rejectionOf } from './rejection-code.ts';
import { tiffBlock } from './tiff-block.ts';

const [widthPx, heightPx] = [64, 48];
const patch = Uint8Array.from({ length: widthPx * heightPx * 3 }, (_, i) => [200, 120, 61][i % 3]!);
const picture = () => sharp(patch, { raw: { width: widthPx, height: heightPx, channels: 3 } });
const plain = new Uint8Array(await picture().jpeg({ quality: 95, chromaSubsampling: '4:4:4' }).toBuffer());

function segment(marker: number, data: Uint8Array): Uint8Array {
  return join(Uint8Array.of(0xff, marker, (data.length + 2) >> 8, (data.length + 2) & 255), data);
}

function withSegments(jpeg: Uint8Array, ...segments: readonly Uint8Array[]): Uint8Array {
  return join(jpeg.subarray(0, 2), ...segments, jpeg.subarray(2));
}

const latin = (text: string) => Buffer.from(text, 'latin1');

test('decodeJpegFile gives 8-bit RGBA as stored', async () => {
  const image = await decodeImage(plain, nodePlatform);
  expect(image).toMatchObject({
    format: 'jpeg',
    widthPx,
    heightPx,
    channels: 4,
    bitsPerSample: 8,
    orientation: 1,
  });
  expect(image.iccProfile).toBeNull();
  [200, 120, 61, 255].forEach((value, i) => {
    expect(Math.abs(image.samples[i]! - value)).toBeLessThanOrEqual(2);
  });
});

test('decodeJpegFile reads progressive, subsampled and grey files', async () => {
  const kinds = [
    picture().jpeg({ progressive: true }),
    picture().jpeg({ chromaSubsampling: '4:2:0', quality: 60 }),
    picture().toColourspace('b-w').jpeg(),
  ];
  for (const kind of kinds) {
    const image = await decodeImage(new Uint8Array(await kind.toBuffer()), nodePlatform);
    expect([image.widthPx, image.heightPx, image.channels, image.samples.length]).toEqual([
      64,
      48,
      4,
      64 * 48 * 4,
    ]);
  }
});

test('decodeJpegFile hands on Exif as it stands, and says whether the file is grey', async () => {
  const exif = tiffBlock('II', [{ tag: 274, type: 3, value: [6] }], [{ tag: 34855, type: 3, value: [100] }]);
  const image = await decodeImage(
    withSegments(plain, segment(0xe1, join(latin('Exif\0\0'), exif))),
    nodePlatform,
  );
  expect(image.exif).toEqual(exif);
  expect(image.isGreyJpeg).toBe(false);
  const grey = await decodeImage(
    new Uint8Array(await picture().toColourspace('b-w').jpeg().toBuffer()),
    nodePlatform,
  );
  expect(grey.exif).toBeNull();
  expect(grey.isGreyJpeg).toBe(true);
});

test('decodeJpegFile hands on an ICC profile in pieces of any order and does not apply it', async () => {
  const profile = new Uint8Array(await picture().withIccProfile('p3').jpeg().toBuffer());
  const whole = readJpegSegments(profile).iccProfile!;
  expect(whole.length).toBeGreaterThan(300);
  const swapped = swapRedAndBlue(whole);
  const half = whole.length >> 1;
  const lead = latin('ICC_PROFILE\0');
  const tagged = withSegments(
    plain,
    segment(0xe2, join(latin('MPF\0'), new Uint8Array(20))),
    segment(0xe2, join(lead, Uint8Array.of(2, 2), swapped.subarray(half))),
    segment(0xe2, join(lead, Uint8Array.of(1, 2), swapped.subarray(0, half))),
  );
  const image = await decodeImage(tagged, nodePlatform);
  expect(image.iccProfile).toEqual(swapped);
  expect(image.samples).toEqual((await decodeImage(plain, nodePlatform)).samples);
});

test('joinIccSegments(segments) gives an empty profile for pieces missing, doubled or misnumbered', () => {
  const piece = (...bytes: number[]) => Uint8Array.of(...bytes);
  expect(joinIccSegments([])).toBeNull();
  expect(joinIccSegments([piece(2, 2, 8), piece(1, 2, 7)])).toEqual(piece(7, 8));
  for (const bad of [[piece(1, 2, 7)], [piece(1, 2, 7), piece(1, 2, 7)], [piece(0, 1, 7)], [piece(1)]])
    expect(joinIccSegments(bad)).toEqual(piece());
});

test('decodeJpegFile reads Exif and leaves the pixels as they lie', async () => {
  const block = tiffBlock('II', [{ tag: 274, type: 3, value: [6] }], [{ tag: 34855, type: 3, value: [100] }]);
  const turned = withSegments(plain, segment(0xe1, join(latin('Exif\0\0'), block)));
  const image = await decodeImage(turned, nodePlatform);
  expect(image).toMatchObject({ widthPx, heightPx, orientation: 6 });
  expect(image.exposure?.iso).toBe(100);
  expect(image.samples).toEqual((await decodeImage(plain, nodePlatform)).samples);
});

test.skipIf(!sharedPhotosPresent)('decodeJpegFile leaves all eight orientations as stored', async () => {
  for (const name of sharedPhotoNames('orientation')) {
    const image = await decodeImage(sharedPhoto(name), nodePlatform);
    const standing = image.orientation >= 5;
    expect([image.widthPx, image.heightPx]).toEqual(standing ? [1200, 1800] : [1800, 1200]);
  }
});

describe('decodeJpegFile refuses, with the right code,', () => {
  test('every truncation, although decoders would paint the rest grey', async () => {
    for (let length = 3; length < plain.length; length += 11)
      expect((await rejectionOf(plain.subarray(0, length))).code).toBe('unreadable-file');
  });
  test('a cut file that holds a whole thumbnail', async () => {
    const thumbnail = segment(0xe1, join(latin('Exif\0\0'), plain));
    const cut = withSegments(plain, thumbnail).subarray(0, plain.length + thumbnail.length - 20);
    expect((await rejectionOf(cut)).message).toContain('cut short');
  });
  test('four inks', async () => {
    const inks = new Uint8Array(await picture().toColourspace('cmyk').jpeg().toBuffer());
    const error = await rejectionOf(inks);
    expect([error.code, error.message]).toEqual(['unsupported-file', expect.stringContaining('CMYK')]);
  });
  test('12 bits and lossless coding', async () => {
    const frameAt = plain.findIndex((byte, i) => byte === 0xff && plain[i + 1] === 0xc0);
    for (const [offset, value] of [
      [4, 12],
      [1, 0xc3],
    ] as const) {
      const rare = plain.slice();
      rare[frameAt + offset] = value;
      expect((await rejectionOf(rare)).code).toBe('unsupported-file');
    }
  });
  test('65 000 × 65 000 pixels, from the header alone, and 3 × 3', async () => {
    const frameAt = plain.findIndex((byte, i) => byte === 0xff && plain[i + 1] === 0xc0);
    for (const [side, code] of [
      [65_000, 'too-large'],
      [3, 'too-small'],
      [0, 'unreadable-file'],
    ] as const) {
      const resized = plain.slice();
      new DataView(resized.buffer).setUint16(frameAt + 5, side);
      new DataView(resized.buffer).setUint16(frameAt + 7, side);
      expect((await rejectionOf(resized)).code).toBe(code);
    }
  });
  test('a picture whose size is not what the header says', async () => {
    const small = {
      ...nodePlatform,
      decodePicture: async () => ({ widthPx: 8, heightPx: 8, samples: new Uint8Array(256) }),
    };
    await expect(decodeImage(plain, small)).rejects.toMatchObject({ code: 'unreadable-file' });
  });
});

test('readJpegSegments(bytes) passes over fill bytes and stops at the first picture of several', () => {
  const filled = join(
    plain.subarray(0, 2),
    Uint8Array.of(0xff, 0xff),
    plain.subarray(2),
    latin('a second picture'),
  );
  expect(readJpegSegments(filled)).toMatchObject({ widthPx, heightPx, components: 3, bitsPerSample: 8 });
});

/** Makes a profile under which a decoder that converts colours would be found out. */
function swapRedAndBlue(profile: Uint8Array): Uint8Array {
  const swapped = profile.slice();
  const count = new DataView(swapped.buffer).getUint32(128);
  for (let at = 132; at < 132 + 12 * count; at += 12) {
    const tag = Buffer.from(swapped.subarray(at, at + 4)).toString('latin1');
    if (tag === 'rXYZ') swapped[at] = 'b'.charCodeAt(0);
    if (tag === 'bXYZ') swapped[at] = 'r'.charCodeAt(0);
  }
  return swapped;
}
