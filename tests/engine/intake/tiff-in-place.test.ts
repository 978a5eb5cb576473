import { describe, expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { noiseSamples } from './png-bytes.ts';
import { type TiffRecipe, tiffFile } from './tiff-bytes.ts';

const [widthPx, heightPx] = [64, 48];
const samples = noiseSamples(widthPx * heightPx * 3, 7);
const PLAIN: TiffRecipe = { widthPx, heightPx, samples, channels: 3, depth: 16, photometric: 2 };
const decode = (bytes: Uint8Array) => decodeImage(bytes, nodePlatform);

/** The same file, beginning at another byte of its buffer. */
function shifted(bytes: Uint8Array, by: number): Uint8Array {
  const room = new Uint8Array(bytes.length + by);
  room.set(bytes, by);
  return room.subarray(by);
}

describe('an uncompressed TIFF', () => {
  test.each([{}, { rowsPerStrip: 7 }])('with %o is read where it stands', async (wish) => {
    const bytes = tiffFile({ ...PLAIN, ...wish });
    const before = bytes.slice();
    const stored = await decode(bytes);
    expect(stored.samples.buffer).toBe(bytes.buffer);
    expect([...stored.samples]).toEqual([...samples]);
    expect(bytes).toEqual(before);
  });

  test('of 8 bits, from any byte on, too', async () => {
    const codes = Uint8Array.from(samples, (code) => code >> 8);
    const bytes = shifted(tiffFile({ ...PLAIN, samples: codes, depth: 8 }), 1);
    const stored = await decode(bytes);
    expect(stored.samples.buffer).toBe(bytes.buffer);
    expect([...stored.samples]).toEqual([...codes]);
  });

  test.each<[string, (bytes: Uint8Array) => Uint8Array, Partial<TiffRecipe>]>([
    ['at an odd byte', (bytes) => shifted(bytes, 1), {}],
    ['in the other byte order', (bytes) => bytes, { order: 'MM' }],
    ['channel by channel', (bytes) => bytes, { planar: true }],
    ['in tiles', (bytes) => bytes, { tile: [16, 16] }],
  ])('%s is put together elsewhere, the same codes', async (_, moved, wish) => {
    const bytes = moved(tiffFile({ ...PLAIN, ...wish }));
    const before = bytes.slice();
    const stored = await decode(bytes);
    expect(stored.samples.buffer).not.toBe(bytes.buffer);
    expect([...stored.samples]).toEqual([...samples]);
    expect(bytes).toEqual(before);
  });

  test('whose strips lie the other way round is put together in their order', async () => {
    const [half, at, count] = [heightPx / 2, 8, (widthPx * heightPx * 6) / 2];
    const swapped = Uint16Array.from(
      { length: samples.length },
      (_, i) => samples[(i + samples.length / 2) % samples.length]!,
    );
    const bytes = tiffFile({
      ...{ ...PLAIN, samples: swapped, rowsPerStrip: half },
      tags: [[273, 4, [at + count, at]]],
    });
    const stored = await decode(bytes);
    expect(stored.samples.buffer).not.toBe(bytes.buffer);
    expect([...stored.samples]).toEqual([...samples]);
  });
});
