import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import { type MakeLibraw, openRawFile } from '../../workers/raw-decoder.ts';
import { dngOf } from '../synthetic/bayer-mosaic.ts';

const require = createRequire(import.meta.url);
const wasmBinary = readFileSync(require.resolve('libraw-wasm/dist/libraw.wasm'));
const LIBRAW: string = 'libraw-wasm/dist/libraw.js';
const { default: makeLibraw } = (await import(LIBRAW)) as { default: MakeLibraw };

const dng = dngOf(() => [0.4, 0.4, 0.4], {
  ...{ widthPx: 64, heightPx: 48, order: 'RGGB', bits: 14, white: 15_000, seed: 1 },
  black: { rows: 1, columns: 1, levels: [512] },
});

test('openRawFile hands out the mosaic, and pictures after it, each as often as asked', async () => {
  const raw = await openRawFile(makeLibraw, { wasmBinary }, dng);
  const first = await raw.mosaic();
  expect([first?.width, first?.height, first?.data.length]).toEqual([64, 48, 64 * 48]);
  const half = await raw.developed({ halfSize: true, multipliers: null });
  expect([half.width, half.height, half.bits, half.maximum]).toEqual([32, 24, 16, 15_000 - 512]);
  expect((await raw.mosaic())?.data).toEqual(first?.data);
  const whole = await raw.developed({ halfSize: false, multipliers: [2, 1, 1.5] });
  expect([whole.width, whole.height, whole.colors]).toEqual([64, 48, 3]);
  raw.dispose();
});

test('openRawFile gives the decoder’s own number of what fails', async () => {
  const opened = openRawFile(makeLibraw, { wasmBinary }, new Uint8Array(5000).fill(7));
  await expect(opened).rejects.toThrow(/LibRaw: open_buffer\(\) failed with code -\d+/);
});

test('openRawFile says so where the decoder can’t be had', async () => {
  const none: MakeLibraw = () => Promise.reject(new TypeError('Failed to fetch'));
  const opened = openRawFile(none, {}, dng);
  await expect(opened).rejects.toMatchObject({
    code: 'worker-lost',
    message: expect.stringMatching(/raw files could not be fetched or started \(Failed to fetch\)\. Reload/),
  });
});

test('openRawFile starts nothing that waits for ever, and leaves the platform as it was', async () => {
  const before = Object.getOwnPropertyDescriptor(Atomics, 'waitAsync');
  let waits = 0;
  let offered: unknown = 'not asked';
  const watched: MakeLibraw = (options) => {
    offered = Reflect.get(Atomics, 'waitAsync');
    waits++;
    return makeLibraw(options);
  };
  await openRawFile(watched, { wasmBinary }, dng);
  expect([waits, offered]).toEqual([1, undefined]);
  expect(Object.getOwnPropertyDescriptor(Atomics, 'waitAsync')).toEqual(before);
});
