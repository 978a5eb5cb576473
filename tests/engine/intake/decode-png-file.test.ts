import { deflateSync } from 'node:zlib';
import { decode as refereeDecode } from 'fast-png';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';
import {
  CHANNELS,
  chunk,
  headerChunk,
  join,
  noiseSamples,
  type PngRecipe,
  pngFile,
  SIGNATURE,
} from './png-bytes.ts';

const KINDS: readonly (readonly [colourType: number, depth: number])[] = [
  ...[1, 2, 4, 8, 16].map((depth) => [0, depth] as const),
  ...[2, 4, 6].flatMap((type) => [[type, 8] as const, [type, 16] as const]),
];

describe('decodePngFile reads back every sample', () => {
  for (const interlaced of [false, true])
    for (const [colourType, depth] of KINDS)
      test(`of colour type ${colourType} at ${depth} bits${interlaced ? ', interlaced' : ''}`, async () => {
        const [widthPx, heightPx] = [37, 29];
        const samples = noiseSamples(widthPx * heightPx * CHANNELS[colourType]!, depth);
        const bytes = pngFile({ widthPx, heightPx, depth, colourType, interlaced, samples });
        const image = await decodeImage(bytes, nodePlatform);
        expect(image).toMatchObject({ format: 'png', widthPx, heightPx, channels: CHANNELS[colourType] });
        expect(image.bitsPerSample).toBe(depth === 16 ? 16 : 8);
        const stretch = depth < 8 ? 255 / (2 ** depth - 1) : 1;
        expect(Array.from(image.samples)).toEqual(Array.from(samples, (sample) => sample * stretch));
      });
});

test('decodePngFile expands a palette of any depth, interlaced or not, with its alpha where it has one', async () => {
  for (const depth of [1, 2, 4, 8])
    for (const interlaced of [false, true])
      for (const withAlpha of [false, true]) {
        const entries = 2 ** depth;
        const palette = Uint8Array.from(noiseSamples(entries * 3, 8, 5));
        const alpha = Uint8Array.from(noiseSamples(entries - 1, 8, 6)); // shorter than the palette: the last is opaque
        const chunks = [chunk('PLTE', palette), ...(withAlpha ? [chunk('tRNS', alpha)] : [])];
        const samples = noiseSamples(23 * 19, depth);
        const recipe: PngRecipe = {
          widthPx: 23,
          heightPx: 19,
          depth,
          colourType: 3,
          interlaced,
          samples,
          chunks,
        };
        const image = await decodeImage(pngFile(recipe), nodePlatform);
        expect(image.channels).toBe(withAlpha ? 4 : 3);
        const expected = Array.from(samples).flatMap((index) => [
          ...palette.subarray(index * 3, index * 3 + 3),
          ...(withAlpha ? [alpha[index] ?? 255] : []),
        ]);
        expect(Array.from(image.samples)).toEqual(expected);
      }
});

test('decodePngFile agrees with two other decoders on files they can both read', async () => {
  for (const [colourType, depth] of KINDS.filter(([, bits]) => bits >= 8)) {
    const bytes = pngFile({ widthPx: 40, heightPx: 33, depth, colourType });
    const image = await decodeImage(bytes, nodePlatform);
    expect(Array.from(image.samples)).toEqual(Array.from(refereeDecode(bytes, { checkCrc: true }).data));
    if (depth === 8 && colourType >= 2) {
      const second = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
      if (second.info.channels === image.channels)
        expect(Array.from(image.samples)).toEqual(Array.from(second.data));
    }
  }
});

test.skipIf(!sharedPhotosPresent)(
  'decodePngFile keeps all 16 bits of a photograph, as another decoder does',
  async () => {
    const bytes = sharedPhoto('sixteen-bit/rgb16_photo_1024x684.png');
    const image = await decodeImage(bytes, nodePlatform);
    const referee = refereeDecode(bytes, { checkCrc: true });
    expect(Buffer.compare(asBytes(image.samples), asBytes(referee.data))).toBe(0);
    const lowBytes = new Set(Array.from(image.samples.slice(0, 20_000), (sample) => sample & 255));
    expect(lowBytes.size).toBeGreaterThan(200);
  },
);

test('decodePngFile reads 24 megapixels at 16 bits in seconds', async () => {
  const [widthPx, heightPx] = [6000, 4000];
  const rowBytes = widthPx * 6;
  const raw = new Uint8Array((rowBytes + 1) * heightPx);
  const noise = Uint8Array.from(noiseSamples(1 << 20, 3));
  for (let y = 0; y < heightPx; y++) {
    raw[y * (rowBytes + 1)] = y === 0 ? 0 : 4;
    for (let i = 1; i <= rowBytes; i++) raw[y * (rowBytes + 1) + i] = noise[(y * 977 + i) & 0xfffff]!;
  }
  const bytes = join(
    SIGNATURE,
    headerChunk(widthPx, heightPx, 16, 2),
    chunk('IDAT', deflateSync(raw, { level: 1 })),
    chunk('IEND', new Uint8Array(0)),
  );
  const started = performance.now();
  const image = await decodeImage(bytes, nodePlatform);
  const seconds = (performance.now() - started) / 1000;
  console.log(
    `measured: 24 megapixels, 16 bit RGB, ${(bytes.length / 1e6).toFixed(0)} MB, decoded in ${seconds.toFixed(2)} s`,
  );
  expect(image.samples.length).toBe(widthPx * heightPx * 3);
  expect(seconds).toBeLessThan(6); // the machine may be shared; the figure printed is the one to watch
});

function asBytes(samples: ArrayBufferView): Buffer {
  return Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength);
}
