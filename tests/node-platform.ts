import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pipeline, Readable } from 'node:stream';
import { createDeflate, createInflate } from 'node:zlib';
import sharp from 'sharp';
import type { Platform } from '../src/engine/intake/platform.ts';
import { openProfileTables } from '../workers/colour-tables.ts';
import { type MakeLibraw, openRawFile } from '../workers/raw-decoder.ts';

const require = createRequire(import.meta.url);
const LIBRAW: string = 'libraw-wasm/dist/libraw.js';

/** The engine's platform in Node, for tests: the same promises as a browser's worker keeps. */
export const nodePlatform: Platform = {
  async decodePicture(bytes, type) {
    if (type === 'image/heic') return null;
    // an embedded profile would be converted to sRGB; Exif turning is off unless asked for
    const { data, info } = await sharp(bytes, { ignoreIcc: true, failOn: 'error', limitInputPixels: false })
      .toColourspace('srgb')
      .raw()
      .toBuffer({ resolveWithObject: true });
    const samples = new Uint8Array(info.width * info.height * 4);
    const { channels } = info;
    for (let from = 0, to = 0; to < samples.length; from += channels, to += 4) {
      samples[to] = data[from]!;
      samples[to + 1] = data[from + (channels > 2 ? 1 : 0)]!;
      samples[to + 2] = data[from + (channels > 2 ? 2 : 0)]!;
      samples[to + 3] = channels % 2 === 0 ? data[from + channels - 1]! : 255;
    }
    return { widthPx: info.width, heightPx: info.height, samples };
  },

  async decodeJpegInSmall(bytes, size, longestPx) {
    const longest = Math.max(size.widthPx, size.heightPx);
    const width = Math.round((size.widthPx * Math.min(longest, longestPx)) / longest);
    const small = sharp(bytes, { failOn: 'error' }).resize(width).toColourspace('srgb').ensureAlpha().raw();
    const { data, info } = await small.toBuffer({ resolveWithObject: true });
    return { widthPx: info.width, heightPx: info.height, samples: new Uint8Array(data) };
  },

  openProfileTables,

  async *inflateZlib(pieces) {
    const inflate = createInflate({ chunkSize: 256 * 1024 });
    // errors reach the loop through the stream itself; the callback keeps an early break from being an unhandled one
    pipeline(Readable.from(pieces), inflate, () => {});
    for await (const piece of inflate) yield piece as Uint8Array;
  },

  async *deflateZlib(pieces) {
    const deflate = createDeflate({ chunkSize: 256 * 1024 });
    pipeline(Readable.from(pieces), deflate, () => {});
    for await (const piece of deflate) yield piece as Uint8Array;
  },

  async encodeJpeg({ widthPx, heightPx, samples }, quality) {
    const bytes = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);
    const jpeg = await sharp(bytes, { raw: { width: widthPx, height: heightPx, channels: 4 } })
      .removeAlpha()
      .jpeg({ quality: Math.round(quality * 100), chromaSubsampling: quality === 1 ? '4:4:4' : '4:2:0' })
      .toBuffer();
    return new Uint8Array(jpeg);
  },

  async openRaw(bytes) {
    const wasmBinary = readFileSync(require.resolve('libraw-wasm/dist/libraw.wasm'));
    const { default: makeLibraw } = (await import(LIBRAW)) as { default: MakeLibraw };
    return openRawFile(makeLibraw, { wasmBinary }, bytes);
  },

  async sha256Hex(bytes) {
    return createHash('sha256').update(bytes).digest('hex');
  },
};
