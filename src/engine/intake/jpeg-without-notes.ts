/**
 * A copy of a JPEG without Exif, ICC and other notes, for a decoder that would turn or convert it by them unasked. What
 * decides how the samples themselves are read stays: APP0 (JFIF) and APP14 (the colour transform). A file that is not
 * laid out as expected comes back as far as it went: the decoder then answers for it.
 * Source: ITU-T T.81 (1992), annex B.1.1.
 */
export function jpegWithoutNotes(bytes: Uint8Array): Uint8Array {
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    if (marker === SCAN) break;
    const end = at + 2 + ((bytes[at + 2]! << 8) | bytes[at + 3]!);
    const isNote = (marker > 0xe0 && marker <= 0xef && marker !== 0xee) || marker === COMMENT;
    if (!isNote) kept.push(bytes.subarray(at, end));
    at = end;
  }
  kept.push(bytes.subarray(at));
  const bare = new Uint8Array(kept.reduce((sum, piece) => sum + piece.length, 0));
  let to = 0;
  for (const piece of kept) {
    bare.set(piece, to);
    to += piece.length;
  }
  return bare;
}

const SCAN = 0xda;
const COMMENT = 0xfe;
