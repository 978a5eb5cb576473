import { createHash } from 'node:crypto';
import { deflateSync, inflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { decodeImage } from '../../src/engine/intake/decode-image.ts';
import { browserPlatform } from '../../workers/browser-platform.ts';
import { noiseSamples, pngFile } from '../engine/intake/png-bytes.ts';

// DecompressionStream and crypto.subtle are Node's too; its picture decoders are tried in a real browser.

test('browserPlatform.inflateZlib(pieces) inflates a stream cut anywhere', async () => {
  const plain = Uint8Array.from(noiseSamples(900_000, 3));
  const stream = new Uint8Array(deflateSync(plain));
  const pieces = [stream.subarray(0, 1), stream.subarray(1, 5000), stream.subarray(5000)];
  const parts: Uint8Array[] = [];
  for await (const part of browserPlatform.inflateZlib(pieces)) parts.push(part);
  expect(parts.length).toBeGreaterThan(3);
  expect(Buffer.compare(Buffer.concat(parts), plain)).toBe(0);
});

test('browserPlatform.inflateZlib(pieces) rejects a damaged and a cut stream, and may be left early', async () => {
  const good = new Uint8Array(deflateSync(new Uint8Array(1e6).fill(7)));
  const bent = good.slice();
  bent[2] = 0xff;
  const drain = async (bytes: Uint8Array) => {
    for await (const part of browserPlatform.inflateZlib([bytes])) if (part.length === 0) break;
  };
  await expect(drain(bent)).rejects.toThrow();
  await expect(drain(good.subarray(0, good.length - 5))).rejects.toThrow();
  let parts = 0;
  for await (const part of browserPlatform.inflateZlib([good])) {
    parts += part.length;
    break;
  }
  expect(parts).toBeLessThan(1e6);
});

test('browserPlatform.deflateZlib(pieces) makes one stream of them', async () => {
  const plain = Uint8Array.from(noiseSamples(900_000, 6));
  const pieces = function* () {
    for (let at = 0; at < plain.length; at += 100_000) yield plain.subarray(at, at + 100_000);
  };
  const parts: Uint8Array[] = [];
  for await (const part of browserPlatform.deflateZlib(pieces())) parts.push(part);
  expect(Buffer.compare(inflateSync(Buffer.concat(parts)), plain)).toBe(0);
});

test('decodeImage(bytes, browserPlatform) reads a PNG as in Node', async () => {
  const samples = noiseSamples(50 * 40 * 3, 16);
  const bytes = pngFile({ widthPx: 50, heightPx: 40, depth: 16, colourType: 2, samples });
  expect((await decodeImage(bytes, browserPlatform)).samples).toEqual(samples);
});

test('browserPlatform.sha256Hex(bytes) is the usual digest', async () => {
  const bytes = Uint8Array.of(1, 2, 3);
  expect(await browserPlatform.sha256Hex(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
});
