import exifr from 'exifr';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { openToCorrect, previewCorrection } from '../../src/engine/preview-correction.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import type { Profile } from '../../src/engine/profile/profile.ts';
import { nodePlatform } from '../node-platform.ts';
import { CAMERA_MATRIX, dngOf, type SensorOptions } from '../synthetic/bayer-mosaic.ts';
import { dngBytes } from '../synthetic/dng-bytes.ts';
import { randomField } from '../synthetic/known-field.ts';
import { measureBytes } from './known-frames.ts';

const SENSOR: SensorOptions = {
  widthPx: 900,
  heightPx: 600,
  order: 'GRBG',
  bits: 14,
  black: { rows: 2, columns: 2, levels: [512, 514, 509, 511] },
  white: 15_600,
  margins: { left: 21, top: 13, right: 2, bottom: 1 },
  seed: 4,
};
const FACTS = {
  camera: 'Testbench One',
  exposureTime: 0.008,
  fNumber: 8,
  iso: 100,
  takenAt: '2026:03:01 10:20:30',
  orientation: 3,
} as const;
const { field } = randomField(5, { family: 'ridge', spreadEv: 1.5, peak: 0.6 });
const blank = dngOf(field, SENSOR, FACTS);
let profile: Profile;

const joined = (parts: readonly Uint8Array[]) => new Uint8Array(Buffer.concat(parts));

/** A profile of a blank frame that is measured alone, no set fitted. */
async function profileOf(bytes: Uint8Array): Promise<Profile> {
  const measured = await measureBytes(bytes);
  return makeProfile({ ...measured, reading: measured.measurement });
}

beforeAll(async () => {
  profile = await profileOf(blank);
}, 60_000);

describe('a profile made from a raw frame', () => {
  test('holds gains for that camera’s own colours', () => {
    expect(profile.colourSpace).toEqual({ name: 'camera-native', camera: 'Testbench One' });
    expect(profile.light).toBe('scene-linear');
    expect([profile.madeFrom.widthPx, profile.madeFrom.heightPx]).toEqual([900, 600]);
  });

  test('makes another raw frame of the same set even and neutral, as a 16-bit TIFF in wide RGB', async () => {
    const other = dngOf(field, { ...SENSOR, seed: 9 }, FACTS);
    const phases = new Set<string>();
    const file = await correctFrame({ name: 'other.dng', bytes: other }, profile, {}, nodePlatform, (phase) =>
      phases.add(phase),
    );
    expect([...phases]).toEqual(['opening', 'decoding', 'correcting', 'writing']);
    const tiff = joined(file.parts);
    const meta = await sharp(tiff).metadata();
    expect([meta.width, meta.height, meta.depth, meta.orientation]).toEqual([899, 599, 'ushort', 3]);
    const { measurement } = await measureBytes(tiff, 'other.corrected.tif');
    const { falloff, tint, cast, frame } = measurement;
    console.log(
      `measured: a raw frame corrected by a raw blank: spread ${falloff.spreadEv.toFixed(4)} EV (limit 0.02), ` +
        `tint ${tint.spreadDeltaUv.toFixed(5)} u′v′, cast ${cast.deltaUv.toFixed(5)} u′v′ (limits 0.002, 0.001)`,
    );
    expect(falloff.spreadEv).toBeLessThan(0.02);
    expect(tint.spreadDeltaUv).toBeLessThan(0.002);
    expect(cast.deltaUv).toBeLessThan(0.001);
    expect(frame.colourProfile).toBe('Wide RGB');
    expect(file.flags).toEqual([]); // nothing to be looked at
    expect(file.notes).toEqual([expect.stringMatching(/developed to a picture in a wide RGB space/)]);
    const exif = await exifr.parse(Buffer.from(tiff), { tiff: true, exif: true, mergeOutput: true });
    expect(exif).toMatchObject({ Model: 'Testbench One', ExposureTime: 0.008, FNumber: 8, ISO: 100 });
    // what would make a reader take it for a sensor's cells is gone
    for (const tag of [33421, 33422, 50706, 50714, 50721]) expect(exif[tag], `${tag}`).toBeUndefined();
    expect(exif.DNGVersion).toBeUndefined();
  });

  test('leaves clipped light clipped, and counts it as the reading does', async () => {
    const bright = dngOf(
      (x, y) => field(x, y).map((v) => v * 2.2) as [number, number, number],
      SENSOR,
      FACTS,
    );
    const file = await correctFrame({ name: 'bright.dng', bytes: bright }, profile, {}, nodePlatform);
    const { measurement } = await measureBytes(bright, 'bright.dng');
    const share = file.clippedBefore / (899 * 599);
    console.log(
      `measured: clipped ${(100 * share).toFixed(2)} % of the developed picture, ` +
        `${(100 * measurement.clipping.highlightShare).toFixed(2)} % of the quads`,
    );
    expect(share).toBeGreaterThan(0.01);
    expect(Math.abs(share / measurement.clipping.highlightShare - 1)).toBeLessThan(0.2);
  });

  test('is previewed on the cells themselves, and as a JPEG written in sRGB', async () => {
    const opened = await openToCorrect({ name: 'blank.dng', bytes: blank }, nodePlatform);
    expect([opened.known.widthPx, opened.known.heightPx]).toEqual([900, 600]);
    const preview = previewCorrection(opened, profile, {}, null);
    expect(preview.flags).toEqual(['This is the blank frame itself.']);
    const { stops } = preview.after;
    const inside = stops.filter((_, i) => i % 97 === 0);
    expect(Math.max(...inside) - Math.min(...inside)).toBeLessThan(0.3);
    const file = await correctFrame(
      { name: 'blank.dng', bytes: blank },
      profile,
      { format: 'jpeg' },
      nodePlatform,
    );
    const { measurement } = await measureBytes(joined(file.parts), 'blank.jpg');
    expect(measurement.frame.colourProfile).toBe('sRGB');
    expect(measurement.falloff.spreadEv).toBeLessThan(0.02);
    expect(measurement.cast.deltaUv).toBeLessThan(0.001);
  });

  test('does not go onto a file of another camera’s colours, and gains of a picture are told on a raw file', async () => {
    const jpeg = await sharp({ create: { width: 900, height: 600, channels: 3, background: '#a0a0a0' } })
      .jpeg()
      .toBuffer();
    const refused = correctFrame({ name: 'a.jpg', bytes: new Uint8Array(jpeg) }, profile, {}, nodePlatform);
    await expect(refused).rejects.toMatchObject({ code: 'wrong-profile' });
    const ofPicture = await profileOf(new Uint8Array(jpeg));
    const file = await correctFrame({ name: 'other.dng', bytes: blank }, ofPicture, {}, nodePlatform);
    expect(file.flags.join(' ')).toMatch(/The profile was made from a frame coded for display/);
  });
});

describe('correctFrame develops what is no Bayer mosaic', () => {
  const [widthPx, heightPx] = [900, 600]; // the decoder interpolates nothing below 512 either way
  const colour = [0.4, 0.5, 0.3];
  const level = (channel: number, i: number, step: number) => {
    const column = Math.floor(i / step) % widthPx;
    return Math.round(1000 + 14_000 * colour[channel]! * 2 ** (-0.5 * (column / widthPx)));
  };
  const SIXES = 'GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG'; // rows of six
  const shared = {
    ...({ widthPx, heightPx, bits: 16, white: 15_000 } as const),
    black: { rows: 1, columns: 1, levels: [1000] },
    ...{ asShotNeutral: [0.8, 1, 0.6] as const, colorMatrix: CAMERA_MATRIX },
  };
  const linear = dngBytes({
    ...shared,
    order: null,
    cells: Uint16Array.from({ length: widthPx * heightPx * 3 }, (_, i) => level(i % 3, i, 3)),
  });
  const sixes = dngBytes({
    ...shared,
    order: SIXES,
    cells: Uint16Array.from({ length: widthPx * heightPx }, (_, i) => {
      const letter = SIXES[(Math.floor(i / widthPx) % 6) * 6 + ((i % widthPx) % 6)]!;
      return level('RGB'.indexOf(letter), i, 1);
    }),
  });

  test.each([
    ['linear colours', linear],
    ['six by six cells', sixes],
  ])('%s: even, neutral and as bright as read', async (_what, bytes) => {
    const blankRead = await measureBytes(bytes);
    expect(blankRead.measurement.falloff.spreadEv).toBeGreaterThan(0.45);
    const file = await correctFrame({ name: 'a.dng', bytes }, await profileOf(bytes), {}, nodePlatform);
    const { measurement, grid } = await measureBytes(joined(file.parts), 'a.tif');
    const mean = (values: Float64Array) => values.reduce((a, b) => a + b, 0) / values.length;
    const { red, green, blue } = blankRead.grid.light;
    const m = blankRead.grid.toXyz;
    const levelBefore = m[3] * mean(red) + m[4] * mean(green) + m[5] * mean(blue);
    const n = grid.toXyz;
    const { light } = grid;
    const levelAfter = n[3] * mean(light.red) + n[4] * mean(light.green) + n[5] * mean(light.blue);
    console.log(
      `measured: ${_what} corrected: spread ${measurement.falloff.spreadEv.toFixed(4)} EV, cast ${measurement.cast.deltaUv.toFixed(5)} u′v′, ` +
        `level ${Math.log2(levelAfter / levelBefore).toFixed(4)} EV off (limits 0.02, 0.001, 0.01)`,
    );
    expect(measurement.falloff.spreadEv).toBeLessThan(0.02);
    expect(measurement.cast.deltaUv).toBeLessThan(0.001);
    expect(Math.abs(Math.log2(levelAfter / levelBefore))).toBeLessThan(0.01);
  });
});
