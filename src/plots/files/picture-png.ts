import { pngChunkBytes } from '../../engine/export/png-chunk-bytes.ts';
import type { MapPicture } from '../falloff-picture.ts';

const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
/** Most bytes of one stored block (RFC 1951, 3.2.4). */
const STORED = 65535;

/**
 * A small picture as a PNG whose bytes are stored as they are: its few thousand pixels need no deflating.
 * Source: ISO/IEC 15948:2004 (PNG); RFC 1950 and 1951 for the stored stream.
 */
export function picturePng({ columns, rows, rgba }: MapPicture): Uint8Array {
  const line = columns * 4 + 1;
  const lines = new Uint8Array(rows * line); // each begins with the number of its filter, 0
  for (let row = 0; row < rows; row++)
    lines.set(rgba.subarray(row * columns * 4, (row + 1) * columns * 4), row * line + 1);
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, columns);
  view.setUint32(4, rows);
  header.set([8, 6], 8); // 8 bits of red, green, blue and alpha
  return joined([
    SIGNATURE,
    pngChunkBytes('IHDR', header),
    pngChunkBytes('IDAT', stored(lines)),
    pngChunkBytes('IEND'),
  ]);
}

/** A PNG that says how large it is on paper; whatever it said of that before is left out. */
export function pngOnPaper(png: Uint8Array, pixelsPerMm: number): Uint8Array<ArrayBuffer> {
  const size = new Uint8Array(9);
  const view = new DataView(size.buffer);
  const perMetre = Math.round(pixelsPerMm * 1000);
  view.setUint32(0, perMetre);
  view.setUint32(4, perMetre);
  size[8] = 1; // metres
  const afterHeader = SIGNATURE.length + 25;
  return joined([png.subarray(0, afterHeader), pngChunkBytes('pHYs', size), png.subarray(afterHeader)]);
}

function stored(bytes: Uint8Array): Uint8Array {
  const pieces: Uint8Array[] = [Uint8Array.of(0x78, 0x01)];
  for (let at = 0; at < bytes.length; at += STORED) {
    const piece = bytes.subarray(at, at + STORED);
    const isLast = at + STORED >= bytes.length;
    const { length } = piece;
    pieces.push(
      Uint8Array.of(Number(isLast), length & 255, length >> 8, ~length & 255, (~length >> 8) & 255),
      piece,
    );
  }
  const checksum = new Uint8Array(4);
  new DataView(checksum.buffer).setUint32(0, adler32(bytes));
  return joined([...pieces, checksum]);
}

function adler32(bytes: Uint8Array): number {
  let [low, high] = [1, 0];
  for (const byte of bytes) {
    low = (low + byte) % 65521;
    high = (high + low) % 65521;
  }
  return high * 65536 + low;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Source: RFC 4648, section 4. */
export function base64(bytes: Uint8Array): string {
  let coded = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const bits = (bytes[at]! << 16) | ((bytes[at + 1] ?? 0) << 8) | (bytes[at + 2] ?? 0);
    const kept = Math.min(3, bytes.length - at) + 1;
    for (let i = 0; i < 4; i++) coded += i < kept ? LETTERS[(bits >> (18 - 6 * i)) & 63] : '=';
  }
  return coded;
}
