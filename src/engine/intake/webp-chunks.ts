import { EngineError } from '../engine-error.ts';

/** What a WebP says beside its pixels. */
export interface WebpFacts {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly isLossy: boolean;
  readonly frames: number;
  readonly iccProfile: Uint8Array | null;
  /** A TIFF block, without the "Exif" lead that some writers put before it. */
  readonly exif: Uint8Array | null;
  readonly xmp: Uint8Array | null;
  /** A file of the pixels alone, for a decoder that would turn or convert it by its notes unasked. */
  readonly bare: Uint8Array;
}

interface Chunk {
  readonly name: string;
  readonly data: Uint8Array;
}

/** In the flags of VP8X: alpha and animation stay in a bare file, notes go. */
const KEPT_FLAGS = 0x12;
const PIXEL_CHUNKS = ['ALPH', 'VP8 ', 'VP8L', 'ANIM', 'ANMF'];
const NOTES = ['ICCP', 'EXIF', 'XMP '];

/**
 * Walks a WebP's chunks.
 * Source: RFC 9649 (WebP image format), 2.3 to 2.7; the frame header of VP8: RFC 6386, 9.1.
 *
 * @throws {@link EngineError} `unreadable-file`.
 */
export function readWebpChunks(bytes: Uint8Array): WebpFacts {
  const chunks = chunksFrom(bytes, 12, riffEnd(bytes));
  const found = (name: string) => chunks.find((chunk) => chunk.name === name)?.data ?? null;
  const frames = chunks.filter(({ name }) => name === 'ANMF');
  const pictures =
    frames.length > 0 ? frames.flatMap(({ data }) => chunksFrom(data, 16, data.length)) : chunks;
  const size = sizeOf(found('VP8X'), pictures);
  if (!size) throw damaged('it holds no picture');
  return {
    ...size,
    isLossy: pictures.some(({ name }) => name === 'VP8 '),
    frames: Math.max(1, frames.length),
    iccProfile: found('ICCP')?.slice() ?? null,
    exif: withoutLead(found('EXIF')),
    xmp: found('XMP ')?.slice() ?? null,
    bare: chunks.some(({ name }) => NOTES.includes(name)) ? bareFile(chunks) : bytes,
  };
}

function riffEnd(bytes: Uint8Array): number {
  if (bytes.length < 20) throw cutShort(bytes.length);
  const end = 8 + uint32(bytes, 4);
  if (end > bytes.length) throw cutShort(bytes.length);
  return end;
}

function chunksFrom(bytes: Uint8Array, from: number, end: number): Chunk[] {
  const chunks: Chunk[] = [];
  let at = from;
  while (at + 8 <= end) {
    const size = uint32(bytes, at + 4);
    if (at + 8 + size > end) throw cutShort(bytes.length);
    const name = String.fromCharCode(...bytes.subarray(at, at + 4));
    chunks.push({ name, data: bytes.subarray(at + 8, at + 8 + size) });
    at += 8 + size + (size & 1);
  }
  return chunks;
}

/** The canvas where one is stated, else the first picture's own size. */
function sizeOf(
  canvas: Uint8Array | null,
  pictures: readonly Chunk[],
): { widthPx: number; heightPx: number } | null {
  const first = pictures.find(({ name }) => name === 'VP8 ' || name === 'VP8L');
  if (!first || first.data.length < 10) return null;
  if (canvas) {
    if (canvas.length < 10)
      throw damaged(`its canvas is described by ${canvas.length} bytes, 10 were needed`);
    const side = (at: number) => 1 + (canvas[at]! | (canvas[at + 1]! << 8) | (canvas[at + 2]! << 16));
    return { widthPx: side(4), heightPx: side(7) };
  }
  const { data } = first;
  if (first.name === 'VP8L') {
    if (data[0] !== 0x2f) throw damaged('its picture lacks its signature');
    const bits = uint32(data, 1);
    return { widthPx: 1 + (bits & 0x3fff), heightPx: 1 + ((bits >>> 14) & 0x3fff) };
  }
  if (data[3] !== 0x9d || data[4] !== 0x01 || data[5] !== 0x2a)
    throw damaged('its picture lacks its signature');
  return { widthPx: (data[6]! | (data[7]! << 8)) & 0x3fff, heightPx: (data[8]! | (data[9]! << 8)) & 0x3fff };
}

function bareFile(chunks: readonly Chunk[]): Uint8Array {
  const kept = chunks.filter(({ name }) => PIXEL_CHUNKS.includes(name) || name === 'VP8X');
  const length = kept.reduce((sum, { data }) => sum + 8 + data.length + (data.length & 1), 12);
  const file = new Uint8Array(length);
  const view = new DataView(file.buffer);
  const ascii = (text: string, at: number) => {
    for (let i = 0; i < 4; i++) file[at + i] = text.charCodeAt(i);
  };
  ascii('RIFF', 0);
  view.setUint32(4, length - 8, true);
  ascii('WEBP', 8);
  let at = 12;
  for (const { name, data } of kept) {
    ascii(name, at);
    view.setUint32(at + 4, data.length, true);
    file.set(data, at + 8);
    if (name === 'VP8X') file[at + 8]! &= KEPT_FLAGS;
    at += 8 + data.length + (data.length & 1);
  }
  return file;
}

function withoutLead(exif: Uint8Array | null): Uint8Array | null {
  if (!exif) return null;
  const hasLead = String.fromCharCode(...exif.subarray(0, 6)) === 'Exif\0\0';
  return exif.slice(hasLead ? 6 : 0);
}

function uint32(bytes: Uint8Array, at: number): number {
  return (bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24)) >>> 0;
}

function cutShort(length: number): EngineError {
  return new EngineError(
    'unreadable-file',
    `The WebP ends after ${length} bytes, before its picture does: it was cut short. Copy or export it again.`,
  );
}

function damaged(found: string): EngineError {
  return new EngineError('unreadable-file', `The WebP is damaged: ${found}. Copy or export it again.`);
}
