import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { chunk, headerChunk, join, pngFile, SIGNATURE } from './png-bytes.ts';
import { rejectionOf } from './rejection-code.ts';

describe('decodePngFile refuses, with the right code,', () => {
  const good = pngFile({ widthPx: 20, heightPx: 20, depth: 8, colourType: 2 });
  const end = chunk('IEND', new Uint8Array(0));

  test('60 000 × 60 000 pixels, from the header alone', async () => {
    const started = performance.now();
    const error = await rejectionOf(join(SIGNATURE, headerChunk(60_000, 60_000, 16, 6), end));
    expect(error.code).toBe('too-large');
    expect(error.message).toMatch(/60000 × 60000 pixels .*at most 200/);
    expect(performance.now() - started).toBeLessThan(200);
  });
  test('3 × 3 pixels', async () => {
    const error = await rejectionOf(pngFile({ widthPx: 3, heightPx: 3, depth: 8, colourType: 2 }));
    expect([error.code, error.message]).toEqual(['too-small', expect.stringContaining('at least 16 a side')]);
  });
  test('14 000 × 14 000 pixels in a hundred bytes, before allocating for them', async () => {
    const before = process.memoryUsage().arrayBuffers;
    const bytes = join(
      SIGNATURE,
      headerChunk(14_000, 14_000, 16, 6),
      chunk('IDAT', deflateSync(new Uint8Array(99))),
      end,
    );
    expect((await rejectionOf(bytes)).code).toBe('unreadable-file');
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(10e6);
  });
  test('every truncation', async () => {
    for (let length = 8; length < good.length; length += 13)
      expect((await rejectionOf(good.subarray(0, length))).code).toBe('unreadable-file');
  });
  test('a wrong checksum anywhere', async () => {
    for (const at of [20, 40, 60, good.length - 14]) {
      const bent = good.slice();
      bent[at] = bent[at]! ^ 1;
      expect((await rejectionOf(bent)).code).toBe('unreadable-file');
    }
  });
  test('an unknown filter, a missing palette, an unknown chunk that is needed, too few rows', async () => {
    const files = [
      pngFile({
        widthPx: 16,
        heightPx: 16,
        depth: 8,
        colourType: 0,
        filterOf: () => 0,
        samples: new Uint8Array(256),
      }),
      pngFile({ widthPx: 16, heightPx: 16, depth: 8, colourType: 3 }),
      pngFile({
        widthPx: 16,
        heightPx: 16,
        depth: 8,
        colourType: 0,
        chunks: [chunk('ABCD', new Uint8Array(3))],
      }),
      join(SIGNATURE, headerChunk(16, 16, 8, 0), chunk('IDAT', deflateSync(new Uint8Array(17 * 15))), end),
      join(
        SIGNATURE,
        headerChunk(16, 16, 8, 0),
        chunk('IDAT', deflateSync(new Uint8Array(17 * 16).fill(5))),
        end,
      ),
    ];
    expect((await decodeImage(files[0]!, nodePlatform)).widthPx).toBe(16); // the sound one of the kind
    for (const file of files.slice(1)) expect((await rejectionOf(file)).code).toBe('unreadable-file');
  });
  test('headers that PNG does not have', async () => {
    for (const [depth, type] of [
      [16, 3],
      [4, 2],
      [8, 5],
      [3, 0],
    ] as const)
      expect((await rejectionOf(join(SIGNATURE, headerChunk(20, 20, depth, type), end))).code).toBe(
        'unreadable-file',
      );
  });
});

test('decodePngFile stops at the last row of a stream that inflates for ever', async () => {
  const stream = deflateSync(new Uint8Array(300_000_000), { level: 9 });
  const bytes = join(
    SIGNATURE,
    headerChunk(16, 16, 8, 0),
    chunk('IDAT', stream),
    chunk('IEND', new Uint8Array(0)),
  );
  const started = performance.now();
  expect((await decodeImage(bytes, nodePlatform)).samples).toEqual(new Uint8Array(256));
  expect(performance.now() - started).toBeLessThan(1000);
});
