import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { expectWithin } from '../expect-within.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { fieldTruth } from '../synthetic/field-truth.ts';
import { exposedBy, randomField } from '../synthetic/known-field.ts';
import { read, readingOf, render } from './blank-render.ts';
import { readBytes } from './known-frames.ts';
import { turnDeg } from './reading-distances.ts';
import { gapsOf } from './reading-gaps.ts';

describe('a Reading has every field of the contract, finite, and comes back from JSON as it was', () => {
  test.each([
    [
      'of a noisy 8-bit PNG',
      async () => toPng(render(randomField(6).field, { bits: 8, electronsAtFull: 3000 })),
    ],
    [
      'of a JPEG with Exif',
      async () =>
        toJpeg(render(randomField(7).field, { bits: 8 }), {
          quality: 90,
          chroma: '4:2:0',
          exif: {
            exposureTime: [1, 125],
            fNumber: [56, 10],
            iso: 100,
            focalLengthMm: 90,
            takenAt: '2026:03:01 10:20:30',
          },
        }),
    ],
    [
      'of a clipped 16-bit PNG',
      async () => toPng(render(exposedBy(randomField(8, { spreadEv: 1.5, peak: 0.9 }).field, 0.6))),
    ],
  ])('%s', async (_what, file) => {
    const reading = await readingOf(await file());
    expect(gapsOf(reading)).toEqual([]);
    expect(JSON.parse(JSON.stringify(reading))).toEqual(reading);
    expect(structuredClone(reading)).toEqual(reading);
    expect(reading.schema).toBe('evenfield.reading/1');
    expect(Math.max(...reading.falloff.evMap.map((ev) => ev!))).toBe(0);
    expectWithin(reading.falloff.spreadEv, -Math.min(...reading.falloff.evMap.map((ev) => ev!)), 1e-12);
  });
});

describe('a Reading of a sample, with its moves, has every field of the contract', () => {
  const samples = new URL('../../samples/', import.meta.url);
  test.each(readdirSync(samples).filter((name) => /\.(jpg|png)$/.test(name)))('in %s', async (name) => {
    const { reading } = await readBytes(new Uint8Array(readFileSync(new URL(name, samples))), name);
    expect(gapsOf(reading)).toEqual([]);
    expect(JSON.parse(JSON.stringify(reading))).toEqual(reading);
  });
});

test('readFrame(region) reads that region: figures of its light, places across the whole frame', async () => {
  const { field } = randomField(30, { family: 'radial', spreadEv: 2 });
  const region = { left: 0.25, top: 0.1, right: 0.75, bottom: 0.85 };
  const { reading } = await read([toPng(render(field, { widthPx: 800, heightPx: 520 }))], region);
  const truth = fieldTruth(field, { ...reading.grid, widthPx: 800, heightPx: 520, region });
  expect(reading.region).toEqual(region);
  expect(gapsOf(reading)).toEqual([]);
  expectWithin(reading.falloff.spreadEv, truth.spreadEv, 0.001);
  expectWithin(reading.falloff.stdEv, truth.stdEv, 0.001);
  expectWithin(reading.tint.spreadDeltaUv, truth.spreadDeltaUv, 0.0001);
  expectWithin(turnDeg(truth.gradient.angleDeg, reading.gradient.angleDeg!), 0, 0.1);
  expectWithin(reading.gradient.ev, truth.gradient.ev, 0.001);
  expectWithin(reading.gradient.mired!, truth.gradient.mired, 0.1);
  for (const end of ['from', 'to'] as const) {
    expectWithin(reading.gradient[end].x, truth.gradient[end].x, 0.001);
    expectWithin(reading.gradient[end].y, truth.gradient[end].y, 0.001);
  }
  expectWithin(reading.falloff.brightestAt.x, truth.brightestAt.x, 0.01);
  expectWithin(reading.falloff.darkestAt.y, truth.darkestAt.y, 0.01);
  expect(reading.frame).toMatchObject({ widthPx: 800, heightPx: 520 });
});
