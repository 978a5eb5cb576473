import { describe, expect, test } from 'vitest';
import { firstLook } from '../../src/engine/first-look.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import type { KnownField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { measureBytes } from './known-frames.ts';

/** Brightest off the middle, a little warmer to the right. */
const light =
  (stops: number): KnownField =>
  (x, y) => {
    const level = 0.7 * 2 ** (-stops * ((x - 0.3) ** 2 + (y - 0.4) ** 2));
    return [level * (0.98 + 0.03 * x), level, level * 0.95];
  };
const rendered = (stops: number) =>
  renderFrame(light(stops), {
    ...{ widthPx: 1200, heightPx: 800, bits: 8, curve: 'srgb', electronsAtFull: 20_000, seed: 5 },
  });
const look = (bytes: Uint8Array) => firstLook({ name: 'frame.jpg', bytes }, nodePlatform);

describe('a first look', () => {
  test.each([
    [0.4, 1],
    [1.5, 1],
    [3, 6],
  ])(
    'at %f stops, orientation %i, shows the map that the reading then measures',
    async (stops, orientation) => {
      const bytes = await toJpeg(rendered(stops), {
        quality: 92,
        chroma: '4:2:0',
        exifOrientation: orientation,
      });
      const seen = (await look(bytes))!;
      const { measurement: reading } = await measureBytes(bytes, 'frame.jpg');
      expect([seen.columns, seen.rows]).toEqual([reading.grid.columns, reading.grid.rows]);
      const off = seen.evMap.map((ev, i) => Math.abs(ev! - reading.falloff.evMap[i]!));
      const worst = Math.max(...off);
      console.log(
        `measured: a first look at ${reading.falloff.spreadEv.toFixed(2)} EV is off by ${worst.toFixed(3)} EV at most in a cell`,
      );
      expect(worst).toBeLessThan(0.02);
      expect(Math.abs(seen.spreadEv - reading.falloff.spreadEv)).toBeLessThan(0.02);
    },
  );

  test('is had of a JPEG alone, and of none that is damaged or larger than is read', async () => {
    expect(await look(toPng(rendered(1), {}))).toBeNull();
    const bytes = await toJpeg(rendered(1), { quality: 92, chroma: '4:2:0' });
    expect(await look(bytes.subarray(0, 300))).toBeNull();
    const claiming = bytes.slice();
    const frameHeader = claiming.findIndex((byte, i) => byte === 0xff && claiming[i + 1] === 0xc0);
    claiming.fill(0xff, frameHeader + 5, frameHeader + 9);
    expect(await look(claiming)).toBeNull();
  });
});
