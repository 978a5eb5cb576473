import { readFileSync } from 'node:fs';
import { deflateSync, inflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { readFrame } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { nodePlatform } from '../../workers/node-platform.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';
import { noiseSamples, pngFile } from '../engine/intake/png-bytes.ts';

const jpeg = new Uint8Array(readFileSync(new URL('../../samples/clipped.jpg', import.meta.url)));
const judgedBy = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };

test('a JPEG without a decoder is refused by name, and says what to hand in', async () => {
  const reading = readFrame([{ name: 'clipped.jpg', bytes: jpeg }], judgedBy, nodePlatform());
  await expect(reading).rejects.toMatchObject({
    code: 'unsupported-file',
    message: expect.stringMatching(/JPEG.*nodePlatform\(\{ decodePicture \}\)/),
    detail: { fileName: 'clipped.jpg' },
  });
});

test('a JPEG that can’t be written is refused by name', async () => {
  const samples = noiseSamples(64 * 48 * 3, 16);
  const bytes = pngFile({ widthPx: 64, heightPx: 48, depth: 16, colourType: 2, samples });
  const profile = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
  const corrected = correctFrame({ name: 'a.png', bytes }, profile, { format: 'jpeg' }, nodePlatform());
  await expect(corrected).rejects.toMatchObject({
    code: 'cannot-write',
    message: expect.stringContaining('nodePlatform({ encodeJpeg })'),
  });
});

test('zlib streams go there and back in pieces, and a damaged one rejects', async () => {
  const platform = nodePlatform();
  const plain = Uint8Array.from(noiseSamples(700_000, 4));
  const deflated: Uint8Array[] = [];
  for await (const piece of platform.deflateZlib([plain.subarray(0, 10), plain.subarray(10)]))
    deflated.push(piece);
  expect(Buffer.compare(inflateSync(Buffer.concat(deflated)), plain)).toBe(0);
  const bent = new Uint8Array(deflateSync(plain)).fill(0xff, 100, 200);
  const drain = async () => {
    for await (const piece of platform.inflateZlib([bent])) if (piece.length === 0) break;
  };
  await expect(drain()).rejects.toThrow();
});
