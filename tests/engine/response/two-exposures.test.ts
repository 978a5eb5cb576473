import { expect, test } from 'vitest';
import type { BlockCodes } from '../../../src/engine/response/block-codes.ts';
import { twoExposures, twoExposuresSay } from '../../../src/engine/response/two-exposures.ts';
import { expectWithin } from '../../expect-within.ts';
import { decodeSrgb, encodeSrgb } from '../../synthetic/code-thresholds.ts';

const table = Float64Array.from({ length: 256 }, (_, code) => decodeSrgb(code / 255));
const light = { red: table, green: table, blue: table };

/** Blocks of a gradient of light from 0.2 to 0.8, so much down, by a camera of this exponent under sRGB. */
function blocks(stops: number, exponent: number): BlockCodes {
  const code = Float32Array.from(
    { length: 200 },
    (_, i) => 255 * encodeSrgb(((0.2 + 0.003 * i) * 2 ** -stops) ** exponent),
  );
  const channel = { code, variance: new Float32Array(200), clippedShare: 0, blackShare: 0 };
  return { layout: { sidePx: 8, columns: 20, rows: 10 }, channels: [channel, channel, channel] };
}

test('twoExposures(bright, dark, stops) tells what a stop shows as, with a ± that takes the shutter’s own slips in', () => {
  const two = twoExposures(blocks(0, 0.8), blocks(2, 0.8), 2, light)!;
  expectWithin(two.perStop, 0.8, 0.002);
  expect(two.plusMinus).toBeGreaterThan(0.02);
  expect(two.plusMinus).toBeLessThan(0.06);
  expectWithin(two.fromLevel, 0.05 ** 0.8, 0.02);
  expectWithin(two.toLevel, 0.797 ** 0.8, 0.04);
  expect(twoExposuresSay(two, { by: 'shutter' })).toMatch(
    /one stop of shutter shows as 0\.80 ± 0\.0\d stop between \d+\s% and \d+\s% of white: falloff there is hidden by about 20 %/,
  );
  const linear = twoExposures(blocks(0, 1), blocks(2, 1), 2, light)!;
  expect(twoExposuresSay(linear, { by: 'entered' })).toMatch(
    /one stop of exposure shows as 1\.00 .*as in linear light/,
  );
  const steeper = twoExposures(blocks(0, 1.2), blocks(2, 1.2), 2, light)!;
  expect(twoExposuresSay(steeper, { by: 'shutter' })).toContain('exaggerated by about 20 %');
});

test('twoExposures(bright, dark) says nothing where hardly a place can be compared', () => {
  const dark = blocks(2, 1);
  const none = dark.channels.map((channel) => ({ ...channel, code: channel.code.map(() => Number.NaN) }));
  expect(twoExposures(blocks(0, 1), { ...dark, channels: none }, 2, light)).toBe(null);
});
