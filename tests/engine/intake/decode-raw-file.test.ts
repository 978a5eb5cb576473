import { describe, expect, test } from 'vitest';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { decodeRawFile } from '../../../src/engine/intake/decode-raw-file.ts';
import type { Platform } from '../../../src/engine/intake/platform.ts';
import { nodePlatform } from '../../node-platform.ts';
import { dngOf, NEUTRAL, type SensorOptions } from '../../synthetic/bayer-mosaic.ts';
import { dngBytes } from '../../synthetic/dng-bytes.ts';

const SENSOR: SensorOptions = {
  widthPx: 240,
  heightPx: 160,
  order: 'RGGB',
  bits: 14,
  black: { rows: 2, columns: 2, levels: [500, 510, 514, 520] },
  white: 15_000,
  seed: 2,
};
const flat = () => [0.3, 0.3, 0.3] as const;
const FACTS = {
  exposureTime: 1 / 60,
  fNumber: 5.6,
  iso: 200,
  takenAt: '2026:03:01 10:20:30',
  orientation: 6,
};

/** A decoder that gives the file's cells and says nothing of it being a DNG. */
const anotherMakers: Platform = {
  ...nodePlatform,
  async openRaw(bytes) {
    const raw = await nodePlatform.openRaw!(bytes);
    const { color_data } = raw.metadata;
    return {
      ...raw,
      metadata: {
        ...raw.metadata,
        dng_version: 0,
        ...{ shutter: 1 / 60, aperture: 5.6, iso_speed: 200, focal_len: 50, flip: 6 },
        timestamp: new Date(2026, 2, 1, 10, 20, 30).getTime() / 1000,
        color_data: {
          ...color_data,
          cam_mul: NEUTRAL.map((value) => 1 / value),
          cam_xyz: color_data.cam_xyz,
        },
      },
    };
  },
};
/** The same file, its first directory no DNG's: the version's tag renamed to one that nobody knows. */
function withoutDngVersion(bytes: Uint8Array): Uint8Array {
  const renamed = bytes.slice();
  const view = new DataView(renamed.buffer);
  for (let at = 10; at < 10 + 12 * view.getUint16(8, true); at += 12)
    if (view.getUint16(at, true) === 50706) view.setUint16(at, 50_000, true);
  return renamed;
}

describe('decodeRawFile', () => {
  test('takes facts of the shot from a DNG’s Exif', async () => {
    const { exposure, orientation, raw } = await decodeImage(dngOf(flat, SENSOR, FACTS), nodePlatform);
    expect(orientation).toBe(6);
    expect(exposure).toMatchObject({ fNumber: 5.6, iso: 200, takenAt: '2026-03-01T10:20:30' });
    expect(exposure!.seconds).toBeCloseTo(1 / 60, 6);
    expect(raw).toMatchObject({ widthPx: 240, heightPx: 160, from: 'cells', camera: 'Testbench One' });
  });

  test('of another maker’s file tells each channel’s black by what the decoder takes off', async () => {
    const bytes = dngOf(flat, SENSOR, FACTS);
    const known = await decodeImage(bytes, nodePlatform);
    const platform: Platform = { ...anotherMakers, openRaw: () => anotherMakers.openRaw!(bytes) };
    const found = await decodeRawFile(withoutDngVersion(bytes), platform);
    expect(found.raw!.codes.zero).toEqual(known.raw!.codes.zero);
    expect(found.samples).toEqual(known.samples);
    expect(found.orientation).toBe(6);
    expect(found.exposure).toMatchObject({ fNumber: 5.6, iso: 200, takenAt: '2026-03-01T10:20:30' });
    expect(found.raw!.blackDoubt).toBe(0);
  });

  test('tells it in a dark room too, and where nothing stands above black says so', async () => {
    const found = async (electronsAtWhite: number, light: number) => {
      const bytes = dngOf(() => [light, light, light], { ...SENSOR, electronsAtWhite }, FACTS);
      const platform: Platform = { ...anotherMakers, openRaw: () => anotherMakers.openRaw!(bytes) };
      return decodeRawFile(withoutDngVersion(bytes), platform);
    };
    const dark = await found(30_000, 0.0002);
    const { zero, black } = dark.raw!.codes;
    expect(dark.raw!.blackDoubt).toBe(0);
    // one code at which all channels' black lies, but for what is no whole code
    zero.forEach((code) => {
      expect(Math.abs(code - black)).toBeLessThanOrEqual(1);
    });
    expect(black).toBe(4 * 500);
    const none = await found(1e9, 0); // no noise either
    expect(none.raw!.blackDoubt).toBeCloseTo(1 / 14_500, 6);
    const { frame } = linearise(none);
    expect(frame.lightSays).toMatch(/Black could not be told for each channel/);
    expect(frame.doubt.blackLight).toBeGreaterThan(0);
  });

  test('counts a pixel as clipped in a colour where any of its cells reaches white', async () => {
    const cells = new Uint16Array(64 * 64).fill(5000);
    cells[0] = 15_000; // red
    cells[3] = 15_001; // one of two greens
    cells[64 + 5] = 14_999; // blue, just not
    const bytes = dngBytes({
      ...{ cells, widthPx: 64, heightPx: 64, order: 'RGGB', bits: 16, white: 15_000 },
      black: { rows: 1, columns: 1, levels: [500] },
    });
    const { samples, raw } = await decodeImage(bytes, nodePlatform);
    const clipped = [...samples.subarray(0, 9)].map((code) => code >= raw!.codes.clip);
    expect(clipped).toEqual([true, false, false, false, true, false, false, false, false]);
  });

  test('counts cells as full where they are heaped up below the white that the file gives', async () => {
    const bright = (x: number) => [0.5 + x, 0.5 + x, 0.5 + x] as const;
    const sensor = { ...SENSOR, widthPx: 600, heightPx: 400 };
    const clippedOf = async (statedWhite: number) => {
      const bytes = dngOf(bright, { ...sensor, bits: 14 as const, fullAt: 14_200 }, { white: statedWhite });
      const { samples, raw, readingSays } = await decodeImage(bytes, nodePlatform);
      let clipped = 0;
      for (let i = 1; i < samples.length; i += 3) if (samples[i]! >= raw!.codes.clip) clipped++;
      return { share: clipped / (samples.length / 3), says: readingSays!.join(' ') };
    };
    const right = await clippedOf(14_195);
    const nominal = await clippedOf(15_000);
    console.log(
      `measured: ${(100 * nominal.share).toFixed(2)} % full by the heap, ${(100 * right.share).toFixed(2)} % by the sensor's own white`,
    );
    expect(right.share).toBeGreaterThan(0.2);
    expect(Math.abs(nominal.share - right.share)).toBeLessThan(0.02);
    expect(nominal.says).toMatch(
      /heaped up at 14\d\d\d and above, below the 15000 that the file gives as white/,
    );
    expect(right.says).not.toMatch(/heaped/);
    // nothing is taken for full where nothing is
    const dim = dngOf((x) => [0.5 + 0.4 * x, 0.5 + 0.4 * x, 0.5 + 0.4 * x], sensor);
    expect((await decodeImage(dim, nodePlatform)).readingSays!.join(' ')).not.toMatch(/heaped/);
  });

  test('reads a pattern of six by six cells, and a DNG of linear colours, by the developed picture', async () => {
    const [widthPx, heightPx] = [180, 120];
    const sixes = 'GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG'; // rows of six
    const colour = [9000, 12_000, 7000];
    const level = (letter: string) => colour['RGB'.indexOf(letter)]!;
    const mosaic = Uint16Array.from({ length: widthPx * heightPx }, (_, i) =>
      level(sixes[(Math.floor(i / widthPx) % 6) * 6 + ((i % widthPx) % 6)]!),
    );
    const linear = Uint16Array.from({ length: widthPx * heightPx * 3 }, (_, i) => colour[i % 3]!);
    const shared = {
      ...({ widthPx, heightPx, bits: 16, white: 15_000 } as const),
      black: { rows: 1, columns: 1, levels: [1000] },
    };
    for (const [bytes, says] of [
      [dngBytes({ ...shared, cells: mosaic, order: sixes }), /no plain 2 × 2 mosaic/],
      [dngBytes({ ...shared, cells: linear, order: null }), /no mosaic of cells/],
    ] as const) {
      const stored = await decodeImage(bytes, nodePlatform);
      const { frame } = linearise(stored);
      const middle = 3 * ((stored.heightPx >> 1) * stored.widthPx + (stored.widthPx >> 1));
      const light = [0, 1, 2].map(
        (i) => stored.samples[middle + i]! / stored.raw!.codes.white[i as 0 | 1 | 2],
      );
      expect(stored.raw).toMatchObject({ widthPx, heightPx, from: 'developed' });
      light.forEach((value, i) => {
        expect(value).toBeCloseTo((colour[i]! - 1000) / 14_000, 3);
      });
      expect(frame.lightSays).toMatch(says);
      expect(frame.light).toBe('scene-linear');
    }
  });
});
