import { EngineError } from '../src/engine/engine-error.ts';
import { jpegWithoutNotes } from '../src/engine/intake/jpeg-without-notes.ts';
import type { DecodedType, Platform, RgbaPicture } from '../src/engine/intake/platform.ts';
import { canvasLack, refuseFalseCanvas, refuseWithout } from './browser-lacks.ts';
import { openProfileTables } from './colour-tables.ts';
import { openRaw } from './open-raw.ts';

/**
 * The engine's platform in a browser's worker. Globals are touched inside functions only, so that the module also loads
 * where they are missing.
 */
export const browserPlatform: Platform = {
  decodePicture,
  decodeJpegInSmall,
  openProfileTables,
  inflateZlib,
  deflateZlib,
  encodeJpeg,
  openRaw,
  async sha256Hex(bytes) {
    if (!globalThis.crypto?.subtle) return null; // an origin that is not secure has none
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>));
    return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
  },
};

/** Formats that not every browser knows: where one does not decode, nobody can tell damage from that. */
const NOT_EVERYWHERE: readonly DecodedType[] = ['image/avif', 'image/heic'];

async function decodePicture(bytes: Uint8Array, type: DecodedType): Promise<RgbaPicture | null> {
  if (typeof ImageDecoder !== 'undefined' && (await ImageDecoder.isTypeSupported(type)))
    return byImageDecoder(bytes, type);
  try {
    return await byBitmap(bytes, type); // a browser may show what it has no such decoder for
  } catch (error) {
    if (error instanceof EngineError) throw error;
    if (NOT_EVERYWHERE.includes(type)) return null;
    throw error;
  }
}

/**
 * No `desiredWidth`, which would convert colours all the same; no `colorSpace` in copyTo, which would too; and the coded
 * size, because the display size is already turned by Exif while the pixels are not.
 */
async function byImageDecoder(bytes: Uint8Array, type: DecodedType): Promise<RgbaPicture> {
  const decoder = new ImageDecoder({
    data: bytes as Uint8Array<ArrayBuffer>,
    type,
    colorSpaceConversion: 'none',
  });
  try {
    const { image } = await decoder.decode({ frameIndex: 0, completeFramesOnly: true });
    try {
      const { codedWidth: widthPx, codedHeight: heightPx } = image;
      const samples = new Uint8Array(widthPx * heightPx * 4);
      await image.copyTo(samples, { format: 'RGBA' });
      return { widthPx, heightPx, samples };
    } finally {
      image.close();
    }
  } finally {
    decoder.close();
  }
}

/** The decoder leaves out what a smaller picture does not need, an eighth at the least; it takes the size as a wish. */
async function decodeJpegInSmall(
  bytes: Uint8Array,
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
  longestPx: number,
): Promise<RgbaPicture | null> {
  if (typeof ImageDecoder === 'undefined') return null;
  const scale = Math.min(1, Math.max(1 / 8, longestPx / Math.max(widthPx, heightPx)));
  const decoder = new ImageDecoder({
    data: bytes as Uint8Array<ArrayBuffer>,
    type: 'image/jpeg',
    desiredWidth: Math.max(1, Math.ceil(widthPx * scale)),
    desiredHeight: Math.max(1, Math.ceil(heightPx * scale)),
  });
  try {
    const { image } = await decoder.decode({ frameIndex: 0, completeFramesOnly: true });
    try {
      const { codedWidth, codedHeight } = image;
      const samples = new Uint8Array(codedWidth * codedHeight * 4);
      await image.copyTo(samples, { format: 'RGBA' });
      return { widthPx: codedWidth, heightPx: codedHeight, samples };
    } finally {
      image.close();
    }
  } finally {
    decoder.close();
  }
}

/**
 * A JPEG's Exif and profile are taken out first (other formats come without): `imageOrientation: 'none'` has come to mean "turn as Exif says", measured in
 * Chromium 156, and `colorSpaceConversion` is not heeded everywhere.
 */
async function byBitmap(bytes: Uint8Array, type: DecodedType): Promise<RgbaPicture> {
  refuseWithout('OffscreenCanvas', 'read such a picture', 'export it as a 16-bit PNG or TIFF');
  refuseFalseCanvas();
  const plain = type === 'image/jpeg' ? jpegWithoutNotes(bytes) : bytes;
  const bare = new Blob([plain as Uint8Array<ArrayBuffer>], { type });
  const bitmap = await createImageBitmap(bare, { colorSpaceConversion: 'none', premultiplyAlpha: 'none' });
  try {
    const { width: widthPx, height: heightPx } = bitmap;
    const context = new OffscreenCanvas(widthPx, heightPx).getContext('2d', { willReadFrequently: true });
    if (!context) throw new Error(`no canvas of ${widthPx} × ${heightPx} pixels to be had`);
    context.drawImage(bitmap, 0, 0);
    return { widthPx, heightPx, samples: context.getImageData(0, 0, widthPx, heightPx).data };
  } finally {
    bitmap.close();
  }
}

/**
 * The canvas is sRGB and so is what is put on it, whatever the codes mean: no conversion is done, and whoever asked puts
 * the source's own profile in. Quality 1 is where Chromium's encoder keeps colour at full resolution.
 */
async function encodeJpeg({ widthPx, heightPx, samples }: RgbaPicture, quality: number): Promise<Uint8Array> {
  const lack = canvasLack();
  if (lack === 'no-canvas') throw new Error('this browser is too old for it: it lacks OffscreenCanvas');
  if (lack === 'altered') throw new Error('this browser alters pictures that a page hands out');
  const canvas = new OffscreenCanvas(widthPx, heightPx);
  // kept out of the graphics processor, which has limits of its own and would have to hand it back
  const context = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
  if (!context) throw new Error(`no canvas of ${widthPx} × ${heightPx} pixels to be had`);
  const clamped = new Uint8ClampedArray(
    samples.buffer as ArrayBuffer,
    samples.byteOffset,
    samples.byteLength,
  );
  context.putImageData(new ImageData(clamped, widthPx, heightPx), 0, 0);
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality });
  return new Uint8Array(await blob.arrayBuffer());
}

/** Slices fed to the decompressor: one big piece would be inflated whole before the first bytes come out. */
const SLICE_BYTES = 1 << 18;

function inflateZlib(pieces: readonly Uint8Array[]): AsyncGenerator<Uint8Array> {
  refuseWithout('DecompressionStream', 'unpack this file', 'export it as a TIFF without compression');
  return through(slicesOf(pieces), () => new DecompressionStream('deflate'));
}

function deflateZlib(pieces: Iterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  return through(pieces, () => new CompressionStream('deflate'));
}

async function* through(
  pieces: Iterable<Uint8Array>,
  stream: () => GenericTransformStream,
): AsyncGenerator<Uint8Array> {
  const waiting = pieces[Symbol.iterator]();
  const source = new ReadableStream<Uint8Array<ArrayBuffer>>({
    pull(controller) {
      const { value, done } = waiting.next();
      if (done) controller.close();
      else controller.enqueue(value as Uint8Array<ArrayBuffer>);
    },
  });
  const reader = source.pipeThrough<Uint8Array>(stream()).getReader();
  try {
    for (;;) {
      const { value, done } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel().catch(() => {}); // a stream that failed can't be cancelled, and need not be
  }
}

function* slicesOf(pieces: readonly Uint8Array[]): Generator<Uint8Array> {
  for (const piece of pieces)
    for (let at = 0; at < piece.length; at += SLICE_BYTES) yield piece.subarray(at, at + SLICE_BYTES);
}
