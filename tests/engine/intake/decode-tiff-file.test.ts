import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { exifToWrite } from '../../../src/engine/export/exif-to-write.ts';
import { writeTiff } from '../../../src/engine/export/write-tiff.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { readExif } from '../../../src/engine/intake/read-exif.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';
import { tumblerExif } from '../export/exif-of-camera.ts';
import { exifFacts, picture, wholeFile } from '../export/read-back.ts';
import { noiseSamples } from './png-bytes.ts';
import { type TiffRecipe, tiffFile, tiffOfPages } from './tiff-bytes.ts';

const [WIDTH, HEIGHT] = [131, 77];
const decode = (bytes: Uint8Array) => decodeImage(bytes, nodePlatform);

/** Smooth light with grain, so that predictors and runs have something to hold on to. */
function light(channels: number, bits: number, widthPx = WIDTH, heightPx = HEIGHT): Uint8Array | Uint16Array {
  const { uniform } = seededRandom(bits + channels);
  const samples = new (bits > 8 ? Uint16Array : Uint8Array)(widthPx * heightPx * channels);
  const most = 2 ** bits - 1;
  return samples.map((_, i) => {
    const pixel = Math.floor(i / channels);
    const share = (pixel % widthPx) / widthPx + Math.floor(pixel / widthPx) / heightPx;
    return most * (0.2 + 0.35 * share + 0.05 * uniform() * (i % 2)); // every other one without grain
  });
}

/** What the independent library finds in a file: codes as stored. */
async function refereed(bytes: Uint8Array, channels: number, bits: number) {
  const space = bits === 16 ? (channels < 3 ? 'grey16' : 'rgb16') : channels < 3 ? 'b-w' : 'srgb';
  const { data, info } = await sharp(bytes, { ignoreIcc: true })
    .toColourspace(space)
    .raw({ depth: bits === 16 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const samples = bits === 16 ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : data;
  return { samples, channels: info.channels };
}

describe('decodeTiffFile reads back what an independent library wrote', () => {
  for (const compression of ['none', 'lzw', 'deflate', 'packbits'] as const)
    for (const predictor of ['none', 'horizontal'] as const)
      test(`compressed by ${compression} with predictor ${predictor}, at 8 and 16 bits, in strips and tiles`, async () => {
        for (const bits of [8, 16])
          for (const channels of [1, 3, 4] as const)
            for (const tile of [false, true]) {
              const samples = light(channels, bits);
              const raw = { width: WIDTH, height: HEIGHT, channels };
              const space =
                bits === 16 ? (channels === 1 ? 'grey16' : 'rgb16') : channels === 1 ? 'b-w' : 'srgb';
              const bytes = await sharp(samples, { raw })
                .toColourspace(space)
                .tiff({ compression, predictor, tile, tileWidth: 64, tileHeight: 32 })
                .toBuffer();
              const image = await decode(new Uint8Array(bytes));
              const what = `${bits} bits, ${channels} channels, ${tile ? 'tiles' : 'strips'}`;
              const facts = {
                format: 'tiff',
                widthPx: WIDTH,
                heightPx: HEIGHT,
                channels,
                bitsPerSample: bits,
              };
              expect(image, what).toMatchObject(facts);
              expect(Buffer.compare(bytesOf(image.samples), bytesOf(samples)), what).toBe(0);
            }
      });

  test('at 1, 2 and 4 bits, and with white as zero', async () => {
    for (const [bitdepth, miniswhite] of [
      [1, false],
      [2, false],
      [4, false],
      [1, true],
    ] as const) {
      const bytes = await sharp(light(1, 8), { raw: { width: WIDTH, height: HEIGHT, channels: 1 } })
        .toColourspace('b-w')
        .tiff({ compression: 'lzw', predictor: 'none', bitdepth, miniswhite })
        .toBuffer();
      const found = await refereed(bytes, 1, 8);
      const image = await decode(new Uint8Array(bytes));
      expect(new Set(image.samples).size).toBeGreaterThan(1);
      expect(image.channels).toBe(1);
      const own = Uint8Array.from({ length: WIDTH * HEIGHT }, (_, i) => found.samples[i * found.channels]!);
      expect(Buffer.compare(bytesOf(image.samples), own), `${bitdepth} ${miniswhite}`).toBe(0);
    }
  });
});

const bytesOf = ({ buffer, byteOffset, byteLength }: Uint8Array | Uint8ClampedArray | Uint16Array) =>
  Buffer.from(buffer, byteOffset, byteLength);

describe('decodeTiffFile reads back what is written here, alike with an independent library', () => {
  const kinds: readonly Partial<TiffRecipe>[] = [
    { planar: true },
    { planar: true, tile: [32, 16] },
    { tile: [48, 32] },
    { rowsPerStrip: 5 },
    { compression: 'deflate', predictor: 2, rowsPerStrip: 3 },
    { compression: 'deflate', predictor: 2, planar: true, rowsPerStrip: 7 },
    { compression: 'packbits', rowsPerStrip: 4, planar: true },
  ];
  for (const order of ['II', 'MM'] as const)
    test(`in byte order ${order}`, async () => {
      for (const kind of kinds)
        for (const depth of [8, 16]) {
          const samples = light(3, depth);
          const bytes = tiffFile({
            widthPx: WIDTH,
            heightPx: HEIGHT,
            channels: 3,
            samples,
            order,
            depth,
            ...kind,
          });
          const image = await decode(bytes);
          const what = JSON.stringify({ ...kind, depth });
          expect(Buffer.compare(bytesOf(image.samples), bytesOf(samples)), what).toBe(0);
          if (kind.planar && kind.tile) continue; // the library reads none of these
          const found = await refereed(bytes, 3, depth);
          expect(
            Buffer.compare(bytesOf(image.samples), bytesOf(found.samples as Uint8Array)),
            `referee, ${what}`,
          ).toBe(0);
        }
    });
});

test('decodeTiffFile takes 10, 12 and 14 packed bits to 16, white to white', async () => {
  for (const depth of [10, 12, 14])
    for (const order of ['II', 'MM'] as const) {
      const most = 2 ** depth - 1;
      const samples = Array.from(noiseSamples(WIDTH * HEIGHT * 3, 16), (code) => code >> (16 - depth));
      samples[4] = most;
      const image = await decode(
        tiffFile({ widthPx: WIDTH, heightPx: HEIGHT, channels: 3, depth, samples, order, rowsPerStrip: 9 }),
      );
      expect(image.bitsPerSample).toBe(16);
      expect(image.samples[4]).toBe(65535);
      expect(Array.from(image.samples)).toEqual(samples.map((code) => Math.round((code * 65535) / most)));
    }
});

test('decodeTiffFile takes floating point of 16 and 32 bits as linear light, and says what it clips', async () => {
  for (const depth of [16, 32])
    for (const order of ['II', 'MM'] as const)
      for (const predictor of [1, 2, 3] as const) {
        const samples = Array.from({ length: 40 * 30 * 3 }, (_, i) => (i % 1024) / 1024);
        samples[0] = 1.5;
        samples[1] = -0.5;
        const recipe = {
          widthPx: 40,
          heightPx: 30,
          channels: 3,
          depth,
          order,
          isFloat: true,
          predictor,
        } as const;
        const image = await decode(tiffFile({ ...recipe, samples, compression: 'deflate', rowsPerStrip: 8 }));
        const expected = samples.map((value) => Math.floor(Math.min(1, Math.max(0, value)) * 65535 + 0.5));
        expect(Array.from(image.samples), `${depth} ${order} ${predictor}`).toEqual(expected);
        const { frame, colourProfile } = linearise(image);
        expect(frame.light).toBe('scene-linear');
        expect(colourProfile).toBe('linear, sRGB primaries (assumed)');
        expect(frame.lightSays).toMatch(
          /floating-point samples are taken as linear.* above 1 and count as clipped white/,
        );
        expect(frame.lightSays).toMatch(/below 0 or no numbers/);
      }
});

test('decodeTiffFile expands a palette, of 8 bits or of more', async () => {
  for (const depth of [1, 4, 8])
    for (const unit of [257, 256, 1, 255]) {
      const entries = 2 ** depth;
      const palette = Array.from(noiseSamples(entries * 3, 8, 5), (value) => value * unit);
      palette[0] = 3 * unit;
      palette[1] = 200 * unit;
      const samples = noiseSamples(33 * 21, depth);
      const image = await decode(
        tiffFile({ widthPx: 33, heightPx: 21, depth, photometric: 3, samples, tags: [[320, 3, palette]] }),
      );
      expect(image.channels).toBe(3);
      expect(image.bitsPerSample).toBe(unit === 255 ? 16 : 8);
      const at = unit === 255 ? 1 : unit;
      const expected = Array.from(samples).flatMap((index) =>
        [0, 1, 2].map((c) => palette[c * entries + index]! / at),
      );
      expect(Array.from(image.samples)).toEqual(expected);
    }
});

test('decodeTiffFile reads alpha where it is called that, undoes what was multiplied by it, and leaves the rest aside', async () => {
  const [widthPx, heightPx] = [20, 16];
  const samples = Uint8Array.from({ length: widthPx * heightPx * 5 }, (_, i) => [60, 40, 20, 128, 7][i % 5]!);
  const file = (kinds: number[]) =>
    decode(tiffFile({ widthPx, heightPx, channels: 5, samples, tags: [[338, 3, kinds]] }));
  const plain = await file([2, 0]);
  expect([plain.channels, ...plain.samples.subarray(0, 4)]).toEqual([4, 60, 40, 20, 128]);
  expect(plain.readingSays).toEqual(['1 further channel is left aside.']);
  const multiplied = await file([1, 0]);
  expect([multiplied.channels, ...multiplied.samples.subarray(0, 4)]).toEqual([4, 120, 80, 40, 128]);
  expect(multiplied.readingSays?.[1]).toMatch(/multiplied by alpha/);
  const unnamed = await file([0, 0]);
  expect([unnamed.channels, ...unnamed.samples.subarray(0, 3)]).toEqual([3, 60, 40, 20]);
  expect(unnamed.readingSays).toEqual(['2 further channels are left aside.']);
});

test('decodeTiffFile reads profile, orientation and XMP', async () => {
  const bytes = await sharp(light(3, 16), { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .toColourspace('rgb16')
    .withIccProfile('p3')
    .withMetadata({ orientation: 6 })
    .withXmp('<x:xmpmeta xmlns:x="adobe:ns:meta/"><a/></x:xmpmeta>')
    .tiff({ compression: 'lzw' })
    .toBuffer();
  const image = await decode(new Uint8Array(bytes));
  const metadata = await sharp(bytes).metadata();
  expect(metadata.icc).toBeDefined();
  expect(Buffer.compare(image.iccProfile!, metadata.icc!)).toBe(0);
  expect(image.orientation).toBe(metadata.orientation);
  expect(image.orientation).toBe(6);
  expect(Buffer.from(image.xmp!).toString()).toContain('xmpmeta');
  expect(linearise(image).colourProfile).not.toMatch(/assumed/);
});

test('decodeTiffFile reads Exif and hands the notes on without what says how the pixels are stored', async () => {
  for (const order of ['II', 'MM'] as const) {
    const block = tumblerExif(order);
    const image = await decode(wholeFile(writeTiff(picture({ exif: block, orientation: 8 }))));
    expect(image.orientation).toBe(8);
    expect(image.exposure).toEqual(readExif(block).exposure);
    expect(image.exposure).not.toBeNull();
    const notes = exifToWrite({ ...image, exif: image.exif ?? null })!;
    expect(notes.length).toBeLessThan(2 * block.length);
    const { Orientation: _, ...facts } = await exifFacts(block);
    expect(Object.keys(facts).length).toBeGreaterThan(10);
    expect(await exifFacts(notes)).toMatchObject({ ...facts, Orientation: 8 });
  }
});

test('decodeTiffFile takes the first full-size picture of many', async () => {
  const page = (code: number, kind: number): TiffRecipe => ({
    widthPx: 30,
    heightPx: 20,
    samples: new Uint8Array(600).fill(code),
    tags: [[254, 4, [kind]]],
  });
  const many = await decode(tiffOfPages([page(9, 1), page(5, 4), page(7, 0), page(8, 2)]));
  expect(many.samples[0]).toBe(7);
  expect(many.readingSays).toEqual(['The file holds 2 pictures; the first is read.']);
  const hundred = await decode(tiffOfPages(Array.from({ length: 100 }, (_, i) => page(i, 2))));
  expect(hundred.samples[0]).toBe(0);
  expect(hundred.readingSays).toEqual(['The file holds 100 pictures; the first is read.']);
});

test.skipIf(!sharedPhotosPresent)(
  'decodeTiffFile reads real 16-bit files as an independent library does',
  async () => {
    for (const name of ['mono16_bigendian_deflate.tif', 'rgb16_157x151.tiff', 'rgb16_small.tiff']) {
      const bytes = sharedPhoto(`sixteen-bit/${name}`);
      const image = await decode(bytes);
      expect(image.bitsPerSample, name).toBe(16);
      const found = await refereed(bytes, image.channels, 16);
      expect(image.samples.length, name).toBe(image.widthPx * image.heightPx * image.channels);
      const own = Uint16Array.from(
        image.samples,
        (_, i) => found.samples[Math.floor(i / image.channels) * found.channels + (i % image.channels)]!,
      );
      expect(Buffer.compare(bytesOf(image.samples), bytesOf(own)), name).toBe(0);
    }
    // the library reads neither tiles of separate channels, here the same picture again, nor 12 bits
    const [planar, together] = await Promise.all(
      ['tiled-planar', 'small'].map((name) => decode(sharedPhoto(`sixteen-bit/rgb16_${name}.tiff`))),
    );
    expect(Buffer.compare(bytesOf(planar!.samples), bytesOf(together!.samples))).toBe(0);
    const bytes = sharedPhoto('sixteen-bit/mono12_packed.tif');
    const packed = await decode(bytes);
    const view = Buffer.from(bytes);
    const rowHex = (y: number) => {
      const strip = view.readUInt32LE(15236 + 4 * Math.floor(y / 54)); // where a look into the file found its strips
      return view.subarray(strip + (y % 54) * 150, strip + ((y % 54) + 1) * 150).toString('hex');
    };
    const codes = Array.from({ length: 100 }, (_, y) => rowHex(y).match(/.{3}/g)!).flat();
    expect(new Set(codes).size).toBeGreaterThan(20);
    expect(Array.from(packed.samples)).toEqual(
      codes.map((hex) => Math.round((Number.parseInt(hex, 16) * 65535) / 4095)),
    );
  },
);

test('decodeTiffFile reads 2 megapixels of 16 bits, LZW with predictor, to the code', async () => {
  const [width, height] = [1632, 1224];
  const samples = light(3, 16, width, height);
  const bytes = new Uint8Array(
    await sharp(samples, { raw: { width, height, channels: 3 } })
      .toColourspace('rgb16')
      .tiff({ compression: 'lzw', predictor: 'horizontal' })
      .toBuffer(),
  );
  await decode(bytes); // so that what is timed is compiled
  const megapixels = (width * height) / 1e6;
  const started = process.cpuUsage();
  const clock = performance.now();
  const image = await decode(bytes);
  const { user, system } = process.cpuUsage(started);
  const perMegapixel = (user + system) / 1000 / megapixels;
  console.log(
    `measured: 16-bit LZW TIFF: ${perMegapixel.toFixed(0)} ms of computing a megapixel (${((perMegapixel * 24) / 1000).toFixed(1)} s for 24), ` +
      `${((performance.now() - clock) / megapixels).toFixed(0)} ms by the clock`,
  );
  expect(Buffer.compare(bytesOf(image.samples), bytesOf(samples))).toBe(0);
});
