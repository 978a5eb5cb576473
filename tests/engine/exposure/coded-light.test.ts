import { expect, test } from 'vitest';
import { codeAtStops, codeStops } from '../../../src/engine/exposure/coded-light.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOfCode } from '../../synthetic/code-thresholds.ts';

function coded(bits: 8 | 16, curve: 'srgb' | 'linear') {
  const table = Float64Array.from({ length: 2 ** bits }, (_, code) => lightOfCode(code, bits, curve));
  return { lightAtCode: { red: table, green: table, blue: table } };
}

// 8-bit sRGB codes and how far below clipping they lie, to half a unit of the last digit: computed tables
test.each([
  [32, -6.11, 0.005],
  [118, -2.465, 0.0005],
  [200, -0.792, 0.0005],
  [250, -0.065, 0.0005],
])('code %d of sRGB lies %d stops from clipping', (code, stops, half) => {
  expectWithin(codeStops(coded(8, 'srgb'), code), stops, half);
  expectWithin(codeStops(coded(16, 'srgb'), code), stops, half);
  const raw = { ...coded(16, 'linear'), clipLight: [2, 1, 1.5] as const };
  expectWithin(codeStops(raw, code), stops, half); // a raw file has no coding: as sRGB would
});

test('a third of a stop below clipping is code 230.3 of sRGB, and 202.4 of 255 in linear light', () => {
  expectWithin(codeAtStops(coded(8, 'srgb'), -1 / 3), 230.3, 0.05);
  expectWithin(codeAtStops(coded(16, 'linear'), -1 / 3), 255 * 2 ** (-1 / 3), 0.01);
});

test('codeAtStops leads back from codeStops; all above clipping is 255', () => {
  for (const code of [1.5, 20, 117.65, 240])
    expectWithin(codeAtStops(coded(8, 'srgb'), codeStops(coded(8, 'srgb'), code)), code, 1e-6);
  expect(codeAtStops(coded(8, 'srgb'), 0.4)).toBe(255);
});
