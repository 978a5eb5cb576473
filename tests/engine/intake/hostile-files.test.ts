import { crc32, deflateSync } from 'node:zlib';
import sharp, { type TiffOptions } from 'sharp';
import { expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotoNames, sharedPhotosPresent } from '../../shared-photos.ts';
import { curveElement, iccBytes, nameElement, SRGB_COLORANTS } from './icc-bytes.ts';
import { chunk, join, pngFile } from './png-bytes.ts';
import { tiffBlock } from './tiff-block.ts';
import { tiffFile, tiffOfPages } from './tiff-bytes.ts';

const LONGEST_ANSWER_MS = 2000;

/** Decodes and linearises; "image" or the error's code. Anything but an EngineError is thrown on. */
async function answer(bytes: Uint8Array): Promise<{ outcome: string; ms: number }> {
  const started = performance.now();
  const outcome = await decodeImage(bytes, nodePlatform).then(
    (stored) => {
      const { frame } = linearise(stored);
      expect(stored.samples.length).toBe(stored.widthPx * stored.heightPx * stored.channels);
      expect(frame.toXyz.every(Number.isFinite)).toBe(true);
      for (const light of Object.values(frame.lightAtCode)) expect(light.every(Number.isFinite)).toBe(true);
      return 'image';
    },
    (error: unknown) => {
      if (error instanceof EngineError) return error.code;
      throw error;
    },
  );
  return { outcome, ms: performance.now() - started };
}

async function tally(files: Iterable<readonly [string, Uint8Array]>): Promise<Map<string, number>> {
  const outcomes = new Map<string, number>();
  let slowest = 0;
  for (const [name, bytes] of files) {
    const { outcome, ms } = await answer(bytes);
    expect(ms, name).toBeLessThan(LONGEST_ANSWER_MS);
    slowest = Math.max(slowest, ms);
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
  }
  console.log(`measured: ${JSON.stringify([...outcomes])}, slowest ${slowest.toFixed(0)} ms`);
  return outcomes;
}

test.skipIf(!sharedPhotosPresent)(
  'decodeImage answers every file of the corrupt corpus with a picture or a code',
  async () => {
    const names = ['corrupt', 'raw', 'raw-cut-short', 'sixteen-bit'].flatMap(sharedPhotoNames);
    const outcomes = await tally(names.map((name) => [name, sharedPhoto(name)] as const));
    expect([...outcomes.values()].reduce((sum, count) => sum + count)).toBe(names.length);
    expect(names.length).toBeGreaterThan(120);
  },
);

const profile = iccBytes({
  desc: nameElement('Any'),
  ...SRGB_COLORANTS,
  ...Object.fromEntries(['rTRC', 'gTRC', 'bTRC'].map((tag) => [tag, curveElement([0, 20000, 65535])])),
});
const exif = tiffBlock('MM', [{ tag: 274, type: 3, value: [8] }], [{ tag: 34855, type: 3, value: [100] }]);
const chunks = [chunk('iCCP', join(Buffer.from('any\0\0'), deflateSync(profile))), chunk('eXIf', exif)];

test('decodeImage answers bent PNGs, also where their checksums are right', async () => {
  const { uniform } = seededRandom(3);
  const kinds = [
    pngFile({ widthPx: 33, heightPx: 17, depth: 16, colourType: 2, chunks }),
    pngFile({
      widthPx: 40,
      heightPx: 40,
      depth: 4,
      colourType: 3,
      interlaced: true,
      chunks: [chunk('PLTE', new Uint8Array(48)), ...chunks],
    }),
    pngFile({ widthPx: 20, heightPx: 20, depth: 8, colourType: 6, interlaced: true, chunks }),
  ];
  const files = Array.from({ length: 600 }, (_, i) => {
    const bent = kinds[i % kinds.length]!.slice();
    for (let hit = 0; hit <= i % 3; hit++)
      bent[8 + Math.floor(uniform() ** 2 * (bent.length - 8))] = uniform() * 256;
    return [`PNG ${i}`, i % 2 ? withChecksums(bent) : bent] as const;
  });
  const outcomes = await tally(files);
  expect(outcomes.get('unreadable-file')).toBeGreaterThan(100);
  expect(outcomes.get('image')).toBeGreaterThan(10);
});

test('decodeImage answers bent JPEGs', async () => {
  const { uniform } = seededRandom(4);
  const noise = Uint8Array.from({ length: 80 * 60 * 3 }, () => uniform() * 256);
  const picture = () => sharp(noise, { raw: { width: 80, height: 60, channels: 3 } }).withIccProfile('p3');
  const kinds = [
    new Uint8Array(await picture().jpeg({ quality: 90 }).toBuffer()),
    new Uint8Array(await picture().jpeg({ progressive: true, chromaSubsampling: '4:4:4' }).toBuffer()),
  ];
  const files = Array.from({ length: 400 }, (_, i) => {
    const kind = kinds[i % kinds.length]!;
    const bent = kind.slice(0, i % 10 === 0 ? Math.floor(uniform() * kind.length) : kind.length);
    for (let hit = 0; hit <= i % 3; hit++)
      bent[2 + Math.floor(uniform() ** 3 * (bent.length - 2))] = uniform() * 256;
    return [`JPEG ${i}`, bent] as const;
  });
  const outcomes = await tally(files);
  expect(outcomes.get('unreadable-file')).toBeGreaterThan(50);
  expect(outcomes.get('image')).toBeGreaterThan(50);
});

test('decodeImage answers bent and cut TIFFs', async () => {
  const { uniform } = seededRandom(5);
  const samples = Uint16Array.from({ length: 60 * 44 * 3 }, (_, i) => 20_000 + i + 900 * uniform());
  const plain = { widthPx: 60, heightPx: 44, channels: 3, depth: 16, samples };
  const written = (options: TiffOptions) =>
    sharp(samples, { raw: { width: 60, height: 44, channels: 3 } })
      .toColourspace('rgb16')
      .withIccProfile('p3')
      .tiff(options)
      .toBuffer();
  const kinds = [
    new Uint8Array(await written({ compression: 'lzw', predictor: 'horizontal' })),
    new Uint8Array(
      await written({
        compression: 'packbits',
        predictor: 'none',
        tile: true,
        tileWidth: 16,
        tileHeight: 16,
      }),
    ),
    tiffFile({ ...plain, compression: 'deflate', predictor: 2, planar: true, rowsPerStrip: 4 }),
    tiffFile({ ...plain, order: 'MM', tile: [32, 16] }),
    tiffFile({
      ...plain,
      isFloat: true,
      depth: 32,
      predictor: 3,
      compression: 'deflate',
      samples: samples.map((v) => v >> 15),
    }),
    tiffFile({
      widthPx: 60,
      heightPx: 44,
      depth: 4,
      photometric: 3,
      samples: samples.map((v) => v & 15),
      tags: [[320, 3, Array(48).fill(7)]],
    }),
    tiffOfPages([plain, plain, plain].map((page) => ({ ...page, compression: 'packbits' as const }))),
  ];
  // the directory is what steers the reader: most of the hits go there
  const steering = kinds.map((kind) => directoriesOf(kind));
  const files = Array.from({ length: 1400 }, (_, i) => {
    const kind = kinds[i % kinds.length]!;
    const bent = kind.slice(0, i % 10 === 0 ? Math.floor(uniform() * kind.length) : kind.length);
    for (let hit = 0; hit <= i % 4; hit++) {
      const places = steering[i % kinds.length]!;
      const at = i % 3 ? places[Math.floor(uniform() * places.length)]! : Math.floor(uniform() * bent.length);
      if (at < bent.length) bent[at] = i % 5 ? uniform() * 256 : bent[at]! ^ (1 << Math.floor(uniform() * 8));
    }
    return [`TIFF ${i}`, bent] as const;
  });
  const outcomes = await tally(files);
  expect(outcomes.get('unreadable-file')).toBeGreaterThan(100);
  expect(outcomes.get('unsupported-file')).toBeGreaterThan(20);
  expect(outcomes.get('image')).toBeGreaterThan(100);
});

/** Where in a TIFF its header and the entries of its first directory stand. */
function directoriesOf(tiff: Uint8Array): number[] {
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength);
  const little = tiff[0] === 0x49;
  const start = view.getUint32(4, little);
  const length = 2 + 12 * view.getUint16(start, little) + 4;
  return [4, 5, 6, 7, ...Array.from({ length }, (_, i) => start + i)];
}

/** Puts every chunk's checksum right again, so that what lies behind the check is reached. */
function withChecksums(png: Uint8Array): Uint8Array {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  for (let at = 8; at + 12 <= png.length; ) {
    const end = at + 8 + view.getUint32(at);
    if (end + 4 > png.length) break;
    view.setUint32(end, crc32(png.subarray(at + 4, end)));
    at = end + 4;
  }
  return png;
}
