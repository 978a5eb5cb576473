import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readFrame } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { blankSamples } from '../blank-samples.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { sharedPhoto, sharedPhotosPresent } from '../shared-photos.ts';
import { FIELD_FAMILIES } from '../synthetic/field-families.ts';
import { quickened } from '../synthetic/field-lattice.ts';
import { fieldTruth } from '../synthetic/field-truth.ts';
import { type KnownField, randomField } from '../synthetic/known-field.ts';
import { CODINGS, fileOf, readBytes } from './known-frames.ts';
import { grey } from './region/blank-frames.ts';
import { halfFrame, lightOfScene, type Outline, roundSheet, tiltedSheet } from './region/lit-sheets.ts';

const [widthPx, heightPx] = [1200, 800];
const OPTIONS = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };

const WHOLE = { left: 0, top: 0, right: 1, bottom: 1 };

describe('readFrame reads exactly the whole frame where the light fills it', () => {
  const samples = new URL('../../samples/', import.meta.url);
  test.each(blankSamples())('in the sample %s', async (name) => {
    const { reading, regionSays } = await readBytes(
      new Uint8Array(readFileSync(new URL(name, samples))),
      name,
    );
    expect(reading.region).toEqual(WHOLE);
    expect(regionSays).toBe('');
  });

  test('in JPEGs of 3 EV of falloff of all families', async () => {
    for (const [k, family] of FIELD_FAMILIES.entries()) {
      const { field } = randomField(40 + k, { family, spreadEv: 3 });
      const coding = k % 2 ? 'JPEG 4:2:0' : 'JPEG 4:4:4';
      const { reading, regionSays } = await readBytes(await fileOf(field, coding, 768, 512, k));
      expect(reading.region, family).toEqual(WHOLE);
      expect(regionSays).toBe('');
    }
  });
});

describe('readFrame reads inside a sheet that covers part of the frame', () => {
  const cases: [string, Outline, KnownField, number | undefined][] = [
    ['tilted in blackness', tiltedSheet(0.5, 0.34, 0.75, 0.48, -14), grey(0), undefined],
    ['tilted, out of focus', tiltedSheet(0.47, 0.32, 0.8, 0.5, 7), grey(0.02), 0.016],
    ['round, in blue dusk', roundSheet(0.5, 0.33, 0.31), () => [0.01, 0.04, 0.15], undefined],
    ['half of the frame', halfFrame(0.5, 0.33, 8), grey(0.06), 0.008],
    ['a strip', tiltedSheet(0.5, 0.31, 3, 0.34, 3), grey(0.004), undefined],
  ];
  test.each(cases)('%s: the spread of the light alone', async (_what, outline, surroundings, softness) => {
    for (const [k, coding] of CODINGS.entries()) {
      const sheet = quickened(randomField(20 + k, { spreadEv: 1.4, peak: 0.85 }).field);
      const light = lightOfScene({ outline, sheet, surroundings, ...(softness ? { softness } : {}) });
      const { reading, regionSays } = await readBytes(await fileOf(light, coding, widthPx, heightPx, k));
      const { region, grid, falloff } = reading;
      expect(region).not.toEqual(WHOLE);
      expect(regionSays).toBe('The lit sheet covers part of the frame; read inside it.');
      const truth = fieldTruth(sheet, { ...grid, region, widthPx, heightPx });
      console.log(
        `measured: ${coding}: ${falloff.spreadEv.toFixed(4)} ± ${falloff.plusMinusEv.toFixed(4)} EV, truth ${truth.spreadEv.toFixed(4)} EV`,
      );
      expectWithin(falloff.spreadEv, truth.spreadEv, 0.02);
    }
  });
});

const half = (edgeX: number) =>
  lightOfScene({ outline: halfFrame(edgeX, 0.3, 0), sheet: grey(0.6), surroundings: grey(0.01) });

test('readFrame reads the region that it is given, and says nothing of it', async () => {
  const bytes = await fileOf(half(0.8), '8 bit', 768, 512, 1);
  const region = { left: 0.125, top: 0.25, right: 0.375, bottom: 0.75 };
  for (const given of [region, WHOLE]) {
    const read = await readFrame([{ name: 'a.png', bytes }], { ...OPTIONS, region: given }, nodePlatform);
    expect(read.reading.region).toEqual(given);
    expect(read.regionSays).toBe('');
  }
});

test('readFrame averages frames over the first one’s region', async () => {
  const sources = await Promise.all(
    [0.6, 0.61].map(async (x, k) => ({
      name: `${k}.png`,
      bytes: await fileOf(half(x), '8 bit', 768, 512, k),
    })),
  );
  const alone = await readFrame(sources.slice(0, 1), OPTIONS, nodePlatform);
  const averaged = await readFrame(sources, OPTIONS, nodePlatform);
  expect(alone.reading.region.right).toBeLessThan(0.6);
  expect(averaged.reading.region).toEqual(alone.reading.region);
  expect(averaged.regionSays).toBe(alone.regionSays);
  expect(averaged.reading.frame.averagedFrames).toBe(2);
});

test('readFrame calls an even sheet even that covers half of the frame', async () => {
  const { reading } = await readBytes(await fileOf(half(0.5), '8 bit', 768, 512, 1));
  expect(reading.verdict.even).toBe('yes');
});

describe('readFrame does not rescue a picture of a subject by some smooth part of it:', () => {
  test
    .skipIf(!sharedPhotosPresent)
    .each(['sixteen-bit/rgb16_photo_1024x684.png', 'orientation/landscape-1.jpg'])('%s', async (name) => {
    await expect(readBytes(sharedPhoto(name), name)).rejects.toMatchObject({ code: 'not-blank' });
  });
  test('shelves of jars before a light wall', async () => {
    const jars: KnownField = (x, y) => {
      const [column, row] = [Math.floor(x * 24), Math.floor(y * 10)];
      const grain = ((column * 7 + row * 13) % 11) / 11;
      return (x * 24) % 1 < 0.7 && y > 0.3 ? [0.1 + 0.5 * grain, 0.2, 0.4 - 0.3 * grain] : [0.7, 0.7, 0.7];
    };
    const bytes = await fileOf(jars, '8 bit', 768, 512, 1);
    await expect(readBytes(bytes)).rejects.toMatchObject({ code: 'not-blank' });
  });
});
