import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { glanceAtFrame } from '../../src/engine/glance-at-frame.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import type { KnownField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';

/** Brightest at the top left, so that every turn of it shows. */
const LIGHT: KnownField = (x, y) => {
  const light = 0.6 * 2 ** (-1.2 * x - 0.5 * y);
  return [light * 1.05, light, light * 0.9];
};
const [WIDTH, HEIGHT] = [600, 400];
const rendered = renderFrame(LIGHT, {
  ...{ widthPx: WIDTH, heightPx: HEIGHT, bits: 8, curve: 'srgb', electronsAtFull: 20_000, seed: 3 },
});
const exif = { exposureTime: [1, 64], fNumber: [8, 1], iso: 100, takenAt: '2026:03:01 10:20:30' } as const;
const glance = (bytes: Uint8Array) => glanceAtFrame({ name: 'frame', bytes }, nodePlatform);

describe('what a look in small shows', () => {
  test('the light of a JPEG, to a few hundredths of a stop, its size, and how it was exposed', async () => {
    const {
      glance: seen,
      picture,
      exposure,
    } = await glance(await toJpeg(rendered, { quality: 90, chroma: '4:2:0', exif }));
    expect([seen.columns, seen.rows]).toEqual([24, 16]);
    let worst = 0;
    for (let row = 0; row < 16; row++) {
      for (let column = 0; column < 24; column++) {
        const [r, g, b] = LIGHT((column + 0.5) / 24, (row + 0.5) / 16);
        const truth = Math.log2(0.2126 * r + 0.7152 * g + 0.0722 * b);
        worst = Math.max(worst, Math.abs(seen.stops[row * 24 + column]! - truth));
      }
    }
    console.log(`measured: a cell of a look in small is off by ${worst.toFixed(3)} EV at most`);
    expect(worst).toBeLessThan(0.05);
    expect(Math.max(picture.widthPx, picture.heightPx)).toBe(96);
    expect(exposure).toMatchObject({ fNumber: 8, iso: 100, takenAt: '2026-03-01T10:20:30' });
    expect(seen.edgeShare).toBe(0);
  });

  test('a PNG the same, though it has to be decoded whole', async () => {
    const jpeg = await glance(await toJpeg(rendered, { quality: 95, chroma: '4:4:4', exif }));
    const png = await glance(toPng(rendered, { exif }));
    expect(png.exposure).toEqual(jpeg.exposure);
    const off = png.glance.stops.map((ev, i) => Math.abs(ev - jpeg.glance.stops[i]!));
    expect(Math.max(...off)).toBeLessThan(0.03);
  });

  test.each([1, 2, 3, 4, 5, 6, 7, 8])('orientation %i is undone, as sharp undoes it', async (orientation) => {
    const bytes = await toJpeg(rendered, {
      quality: 92,
      chroma: '4:4:4',
      exif,
      exifOrientation: orientation,
    });
    const { picture } = await glance(bytes);
    const upright = await sharp(bytes)
      .autoOrient()
      .resize(picture.widthPx, picture.heightPx)
      .raw()
      .toBuffer();
    let worst = 0;
    for (let pixel = 0; pixel < picture.widthPx * picture.heightPx; pixel++)
      worst = Math.max(worst, Math.abs(picture.samples[pixel * 4 + 1]! - upright[pixel * 3 + 1]!));
    expect(worst).toBeLessThan(12);
  });
});

test('what is no picture is refused as reading refuses it', async () => {
  await expect(glance(new TextEncoder().encode('no picture at all'))).rejects.toMatchObject({
    code: 'not-an-image',
  });
});
