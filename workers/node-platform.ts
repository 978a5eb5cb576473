import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pipeline, Readable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { createDeflate, createInflate } from 'node:zlib';
import { EngineError } from '../src/engine/engine-error.ts';
import type { DecodedType, Platform } from '../src/engine/intake/platform.ts';
import { openProfileTables } from './colour-tables.ts';
import { type MakeLibraw, notStarted, openRawFile } from './raw-decoder.ts';

/** What Node itself does not have, lent by whoever uses the engine there. */
export type PictureCoding = Partial<Pick<Platform, 'decodePicture' | 'decodeJpegInSmall' | 'encodeJpeg'>>;

/**
 * The engine's platform in Node. PNG, TIFF and raw files need nothing lent; JPEG, WebP, AVIF and HEIC need a decoder, and a
 * JPEG that is written an encoder: without one they are refused by name.
 */
export function nodePlatform({
  decodePicture = refuseToDecode,
  encodeJpeg = refuseToEncode,
  decodeJpegInSmall,
}: PictureCoding = {}): Platform {
  return {
    decodePicture,
    encodeJpeg,
    ...(decodeJpegInSmall && { decodeJpegInSmall }),
    openProfileTables,
    inflateZlib,
    deflateZlib,
    openRaw,
    async sha256Hex(bytes) {
      return createHash('sha256').update(bytes).digest('hex');
    },
  };
}

const NAMES: Readonly<Record<DecodedType, string>> = {
  'image/jpeg': 'JPEG',
  'image/webp': 'WebP',
  'image/avif': 'AVIF',
  'image/heic': 'HEIC',
};

async function refuseToDecode(_bytes: Uint8Array, type: DecodedType): Promise<never> {
  throw new EngineError(
    'unsupported-file',
    `This is a ${NAMES[type]} picture, and Node decodes none by itself: hand a decoder in, as nodePlatform({ decodePicture }), or export the picture as a 16-bit PNG or TIFF.`,
    { type },
  );
}

async function refuseToEncode(): Promise<never> {
  throw new EngineError(
    'cannot-write',
    'A JPEG was to be written, and Node encodes none by itself: hand an encoder in, as nodePlatform({ encodeJpeg }), or have a TIFF or PNG written.',
  );
}

const PIECE_BYTES = 256 * 1024;

async function* inflateZlib(pieces: readonly Uint8Array[]): AsyncGenerator<Uint8Array> {
  const inflate = createInflate({ chunkSize: PIECE_BYTES });
  // errors reach the loop through the stream itself; the callback keeps an early break from being an unhandled one
  pipeline(Readable.from(pieces), inflate, () => {});
  for await (const piece of inflate) yield piece as Uint8Array;
}

async function* deflateZlib(pieces: Iterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const deflate = createDeflate({ chunkSize: PIECE_BYTES });
  pipeline(Readable.from(pieces), deflate, () => {});
  for await (const piece of deflate) yield piece as Uint8Array;
}

async function openRaw(bytes: Uint8Array) {
  const wasmBinary = readFileSync(librawFile('libraw.wasm'));
  const { default: makeLibraw } = (await import(/* @vite-ignore */ librawFile('libraw.js').href).catch(
    notStarted,
  )) as { default: MakeLibraw };
  return openRawFile(makeLibraw, { wasmBinary }, bytes);
}

/** LibRaw's own two files: beside this one in the package, where another build may be put in their place. */
function librawFile(name: string): URL {
  const beside = new URL(`libraw/${name}`, import.meta.url);
  if (existsSync(beside)) return beside;
  return pathToFileURL(createRequire(import.meta.url).resolve(`libraw-wasm/dist/${name}`));
}
