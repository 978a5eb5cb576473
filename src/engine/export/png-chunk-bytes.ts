import { crc32 } from '../intake/crc32.ts';

/** A chunk of a PNG with its length, name and checksum. */
export function pngChunkBytes(name: string, ...data: readonly Uint8Array[]): Uint8Array {
  const length = data.reduce((sum, { length: more }) => sum + more, 0);
  const bytes = new Uint8Array(12 + length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, length);
  for (let i = 0; i < 4; i++) bytes[4 + i] = name.charCodeAt(i);
  let at = 8;
  for (const piece of data) {
    bytes.set(piece, at);
    at += piece.length;
  }
  view.setUint32(at, crc32(bytes, 4, at));
  return bytes;
}

/** Letters of Latin-1 as bytes; what lies beyond becomes a question mark. */
export function latinBytes(text: string): Uint8Array {
  return Uint8Array.from([...text], (letter) =>
    letter.length === 1 && letter.charCodeAt(0) < 256 ? letter.charCodeAt(0) : 63,
  );
}
