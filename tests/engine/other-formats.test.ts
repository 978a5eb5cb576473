import exifr from 'exifr';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { linearise } from '../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../node-platform.ts';
import { toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { latticeOf, profileOf } from './correct/profile-of.ts';
import { p3Profile } from './export/known-profiles.ts';
import { decoded, wholeFile } from './export/read-back.ts';
import { avifWithProperty, box, nclx } from './intake/avif-with-property.ts';
import { measureBytes } from './known-frames.ts';

const shown = { widthPx: 600, heightPx: 400, bits: 8, curve: 'srgb', electronsAtFull: 30_000 } as const;

function rendered(seed: number) {
  const { field } = randomField(seed, { spreadEv: 0.6 });
  const frame = renderFrame(field, { ...shown, seed });
  const raw = { width: 600, height: 400, channels: 3 } as const;
  return { field, frame, image: () => sharp(frame.samples as Uint8Array, { raw }) };
}

test('measureFrame() reads WebP and AVIF of known fields within their ±; a lossless WebP as the PNG', async () => {
  for (let seed = 21; seed <= 23; seed++) {
    const { field, frame, image } = rendered(seed);
    const exact = renderFrame(field, { ...shown, bits: 16, electronsAtFull: null, seed });
    const truth = (await measureBytes(toPng(exact))).measurement.falloff.spreadEv;
    const plain = (await measureBytes(toPng(frame))).measurement;
    const lossless = (
      await measureBytes(new Uint8Array(await image().webp({ lossless: true, effort: 0 }).toBuffer()))
    ).measurement;
    expect(lossless.falloff.evMap).toEqual(plain.falloff.evMap);
    expect(lossless.falloff.plusMinusEv).toBe(plain.falloff.plusMinusEv);
    for (const [name, file] of [
      ['WebP', image().webp({ quality: 90 })],
      ['AVIF', image().avif({ quality: 75, effort: 2 })],
    ] as const) {
      const { falloff, frame: facts } = (await measureBytes(new Uint8Array(await file.toBuffer())))
        .measurement;
      const error = falloff.spreadEv - truth;
      console.log(
        `measured: ${name} of a field of ${truth.toFixed(3)} EV: ${error.toFixed(4)} off, ± ${falloff.plusMinusEv.toFixed(4)} EV`,
      );
      expect(Math.abs(error)).toBeLessThan(falloff.plusMinusEv);
      expect(falloff.plusMinusEv).toBeGreaterThan(0.019);
      expect(facts.lightSays).toContain('leaves smooth light in steps');
    }
  }
});

const gains = { ...profileOf(latticeOf(3, 3, (x, y) => [-0.5 * x, -0.3 * y, -0.4])) };

/** Mean light, XYZ, of the whole picture. */
async function meanLight(file: Uint8Array): Promise<number[]> {
  const { frame } = linearise(await decodeImage(file, nodePlatform));
  const { samples, channels, lightAtCode, toXyz } = frame;
  const tables = [lightAtCode.red, lightAtCode.green, lightAtCode.blue];
  const rgb = tables.map((table, c) => {
    let sum = 0;
    for (let at = c; at < samples.length; at += channels) sum += table[samples[at]!]!;
    return (sum * channels) / samples.length;
  });
  return [0, 3, 6].map((row) => rgb.reduce((sum, light, c) => sum + toXyz[row + c]! * light, 0));
}

test('correctFrame() of a WebP or AVIF writes every format in its own colours, with its Exif, upright as it was', async () => {
  const { image } = rendered(5);
  const notes = { IFD0: { Model: 'Camera 9' }, IFD2: { FNumber: '56/10' } };
  const noted = () =>
    image().withIccProfile('p3').withExif(notes).withMetadata({ icc: 'p3', orientation: 6 });
  const flat = profileOf(latticeOf(2, 2, () => [-0.5, -0.5, -0.5]));
  const profile = { ...flat, madeFrom: { ...flat.madeFrom, widthPx: 400, heightPx: 600 } };
  for (const [name, bytes] of [
    ['a.webp', await noted().webp({ lossless: true, effort: 0 }).toBuffer()],
    ['a.avif', await noted().avif({ quality: 90, effort: 2 }).toBuffer()],
  ] as const) {
    const source = { name, bytes: new Uint8Array(bytes) };
    const before = await meanLight(source.bytes);
    for (const format of ['tiff', 'png', 'jpeg'] as const) {
      const { parts, ...facts } = await correctFrame(source, profile, { format }, nodePlatform);
      const file = wholeFile(parts);
      expect(facts).toMatchObject({ widthPx: 400, heightPx: 600 });
      const back = await decoded(file);
      expect([back.metadata.channels, back.bits]).toEqual([3, format === 'jpeg' ? 8 : 16]);
      expect(back.metadata.orientation).toBe(6);
      expect(new Uint8Array(back.metadata.icc!)).toEqual(p3Profile);
      const exif = await exifr.parse(file, { mergeOutput: true });
      expect([exif.Model, exif.FNumber]).toEqual(['Camera 9', 5.6]);
      const after = await meanLight(file);
      const worst = Math.max(...after.map((light, i) => Math.abs(light / before[i]! / 2 ** -0.5 - 1)));
      console.log(
        `measured: ${name} as ${format}: mean XYZ within ${(100 * worst).toFixed(3)} % of half a stop down`,
      );
      expect(worst).toBeLessThan(format === 'jpeg' ? 0.01 : 0.0005);
    }
  }
});

test('correctFrame() of an AVIF that states its colours by number writes a profile of them', async () => {
  const { image } = rendered(6);
  const plain = new Uint8Array(await image().avif({ quality: 90, effort: 2 }).toBuffer());
  const stated = avifWithProperty(plain, box('colr', nclx(12, 13)));
  const { parts } = await correctFrame(
    { name: 'a.avif', bytes: stated },
    gains,
    { format: 'png' },
    nodePlatform,
  );
  const written = await decodeImage(wholeFile(parts), nodePlatform);
  expect(linearise(written).colourProfile).toBe('P3');
  const [red] = linearise(written).frame.space.primaries.red;
  expect(Math.abs(red - 0.68)).toBeLessThan(0.0005);
});

test('correctFrame() keeps what of a WebP is transparent in a PNG, and says so of a JPEG', async () => {
  const { image } = rendered(7);
  const bytes = new Uint8Array(await image().ensureAlpha(0.5).webp({ lossless: true, effort: 0 }).toBuffer());
  const png = await correctFrame({ name: 'a.webp', bytes }, gains, { format: 'png', bits: 8 }, nodePlatform);
  const { samples, channels } = await decoded(wholeFile(png.parts));
  expect(channels).toBe(4);
  expect(samples[3]).toBe(127); // half, as the library rounds it
  const jpeg = await correctFrame({ name: 'a.webp', bytes }, gains, { format: 'jpeg' }, nodePlatform);
  expect(jpeg.flags.join(' ')).toContain('A JPEG holds no transparency');
});
