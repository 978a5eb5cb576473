import { expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { blockCodes, blockLayout } from '../../../src/engine/response/block-codes.ts';
import { expectWithin } from '../../expect-within.ts';
import { decodeSrgb, encodeSrgb } from '../../synthetic/code-thresholds.ts';
import { storedPicture } from '../frame/stored-picture.ts';

test('blockLayout(width, height) keeps whole blocks of a JPEG, and few of them in a large picture', () => {
  expect(blockLayout(64, 48)).toEqual({ sidePx: 8, columns: 8, rows: 6 });
  const { sidePx, columns, rows } = blockLayout(6000, 4000);
  expect(sidePx % 8).toBe(0);
  expect(columns * rows).toBeLessThan(30_000);
  expect(columns * sidePx).toBeLessThanOrEqual(6000);
});

test('blockCodes(picture) gives each block the code of its mean light, and none where a pixel is clipped or black', () => {
  const layout = blockLayout(16, 16);
  const samples = new Uint8Array(16 * 16 * 3).fill(100);
  samples[0] = 255;
  samples[(8 * 16 + 8) * 3 + 1] = 0;
  const [red, green, blue] = blockCodes(storedPicture({ samples }), layout).channels;
  expect([...red!.code]).toEqual([Number.NaN, 100, 100, 100]);
  expect([...green!.code]).toEqual([100, 100, 100, Number.NaN]);
  expect([...blue!.code]).toEqual([100, 100, 100, 100]);
  expectWithin(red!.clippedShare, 1 / 256, 1e-12);
  expectWithin(green!.blackShare, 1 / 256, 1e-12);
});

test('blockCodes(picture) does not let the curve’s bend shift noisy blocks', () => {
  const random = seededRandom(8);
  const samples = new Uint8Array(256 * 256 * 3);
  const light = 0.12;
  for (let i = 0; i < samples.length; i++)
    samples[i] = Math.round(255 * encodeSrgb(Math.max(0, light * (1 + 0.2 * random.normal()))));
  const stored = storedPicture({ widthPx: 256, heightPx: 256, samples });
  const { code } = blockCodes(stored, blockLayout(256, 256)).channels[1]!;
  const mean = code.reduce((sum, value) => sum + value, 0) / code.length;
  const plain = samples.reduce((sum, value) => sum + value, 0) / samples.length;
  const offEv = (value: number) => Math.log2(decodeSrgb(value / 255) / light);
  console.log(
    `measured: codes of noisy blocks off by ${offEv(mean).toFixed(4)} EV, ${offEv(plain).toFixed(4)} EV as plain means`,
  );
  expect(Math.abs(offEv(mean))).toBeLessThan(0.004);
  expect(Math.abs(offEv(plain))).toBeGreaterThan(0.015);
});

test('blockCodes(picture) reads a grey one by its one channel', () => {
  const grey = storedPicture({ channels: 1, samples: new Uint8Array(256).fill(90) });
  expect(blockCodes(grey, blockLayout(16, 16)).channels).toHaveLength(1);
});
