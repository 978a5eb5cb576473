const CLEAR = 256;
const END = 257;
const FIRST_FREE = 258;
const MOST_CODES = 4096;

/** Of every string in the table: where in the output it stands, and how long it is. */
const startOf = new Int32Array(MOST_CODES);
const lengthOf = new Int32Array(MOST_CODES);

/**
 * Undoes TIFF's LZW into `out` and returns how many bytes it held, at most `out.length`; −1 for a code that can't be.
 *
 * A new string is always the one before it and one more byte, which stand beside each other in the output already: the
 * table keeps only places there. Source: TIFF 6.0, section 13 (codes of 9 to 12 bits, highest bit first, each width
 * ending one code early).
 */
export function undoTiffLzw(packed: Uint8Array, out: Uint8Array): number {
  let next = FIRST_FREE;
  let width = 9;
  let bits = 0;
  let bitCount = 0;
  let from = 0;
  let to = 0;
  let lastStart = -1; // none since the table was cleared
  let lastLength = 0;
  while (to < out.length) {
    if (bitCount < width) {
      if (from + 1 < packed.length) {
        bits = (bits << 16) | (packed[from]! << 8) | packed[from + 1]!;
        from += 2;
        bitCount += 16;
      } else {
        if (from < packed.length) {
          bits = (bits << 8) | packed[from++]!;
          bitCount += 8;
        }
        if (bitCount < width) return to;
      }
    }
    bitCount -= width;
    const code = (bits >>> bitCount) & ((1 << width) - 1);
    if (code === END) return to;
    if (code === CLEAR) {
      next = FIRST_FREE;
      width = 9;
      lastStart = -1;
      continue;
    }
    // the string before and the byte that follows it, whichever string it begins: it is about to be written there
    if (lastStart >= 0 && next < MOST_CODES) {
      startOf[next] = lastStart;
      lengthOf[next] = lastLength + 1;
      next++;
      if (next === (1 << width) - 1 && width < 12) width++;
    }
    const start = to;
    if (code < CLEAR) {
      out[to++] = code;
      lastLength = 1;
    } else {
      if (code >= next) return -1;
      lastLength = lengthOf[code]!;
      const end = Math.min(out.length, to + lastLength);
      for (let read = startOf[code]!; to < end; ) out[to++] = out[read++]!;
    }
    lastStart = start;
  }
  return to;
}
