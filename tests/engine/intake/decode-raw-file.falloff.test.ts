import { describe, expect, test } from 'vitest';
import { dngOf, type SensorOptions } from '../../synthetic/bayer-mosaic.ts';
import { fieldTruth } from '../../synthetic/field-truth.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { measureBytes } from '../known-frames.ts';

const [WIDTH, HEIGHT] = [900, 600];
/** A large sensor's: fewer pixels then tell as much. */
const ELECTRONS = 80_000;

const SENSORS: readonly (Omit<SensorOptions, 'widthPx' | 'heightPx'> & { readonly name: string })[] = [
  {
    name: 'RGGB, 14 bit, a black for each cell of the quad',
    order: 'RGGB',
    seed: 3,
    bits: 14,
    black: { rows: 2, columns: 2, levels: [510, 512, 515, 508] },
    white: 15_800,
  },
  {
    name: 'BGGR, 12 bit packed, odd margins',
    order: 'BGGR',
    seed: 8,
    bits: 12,
    black: { rows: 1, columns: 1, levels: [256] },
    white: 4000,
    margins: { left: 33, top: 17, right: 5, bottom: 3 },
  },
  {
    name: 'GRBG, 16 bit, one odd margin',
    order: 'GRBG',
    seed: 12,
    bits: 16,
    black: { rows: 2, columns: 2, levels: [2048, 2060, 2040, 2052] },
    white: 65_000,
    margins: { left: 40, top: 21, right: 0, bottom: 1 },
  },
  {
    name: 'GBRG, 14 bit, black by columns and rows',
    order: 'GBRG',
    seed: 21,
    bits: 14,
    black: { rows: 1, columns: 1, levels: [1024.5] },
    columnBlack: Array.from({ length: WIDTH }, (_, column) => (column % 5) * 1.5),
    rowBlack: Array.from({ length: HEIGHT }, (_, row) => row / 200),
    white: 15_000,
    margins: { left: 32, top: 8, right: 0, bottom: 0 },
  },
];

const rms = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

describe.each(SENSORS)('a DNG: $name', ({ name, seed, ...sensor }) => {
  test('gives known falloff and colours back', { timeout: 60_000 }, async () => {
    const { field, describe: drawn } = randomField(seed, { spreadEv: 1.2 });
    const bytes = dngOf(field, {
      ...{ ...sensor, widthPx: WIDTH, heightPx: HEIGHT, seed },
      electronsAtWhite: ELECTRONS,
    });
    const { measurement } = await measureBytes(bytes, 'blank.dng');
    const { frame, grid, falloff, tint, cast } = measurement;
    const truth = fieldTruth(field, { ...grid, widthPx: WIDTH, heightPx: HEIGHT });
    const ev = rms(falloff.evMap.map((value, i) => value! - truth.evMap[i]!));
    const uv = rms(
      tint.uPrimeMap.map((u, i) =>
        Math.hypot(u! - truth.uPrimeMap[i]!, tint.vPrimeMap[i]! - truth.vPrimeMap[i]!),
      ),
    );
    const castUv = Math.hypot(cast.uPrime - truth.cast.uPrime, cast.vPrime - truth.cast.vPrime);
    console.log(
      `measured: ${name}, ${drawn}: rms ${ev.toFixed(5)} EV, ${uv.toFixed(6)} u′v′, cast ${castUv.toFixed(6)} u′v′ ` +
        `(limits 0.003, 0.0003, 0.0003)`,
    );
    expect(ev).toBeLessThan(0.003);
    expect(uv).toBeLessThan(0.0003);
    expect(castUv).toBeLessThan(0.0003);
    expect(frame.light).toBe('scene-linear');
    expect([frame.widthPx, frame.heightPx, frame.bitsPerSample]).toEqual([WIDTH, HEIGHT, 16]);
  });
});
