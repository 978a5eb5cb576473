import type { HuffmanCodes } from './huffman-codes.ts';

/**
 * What the next 16 bits of a baseline scan hold of AC coefficients that are whole: bits × 256 + places in the block, and
 * {@link ENDS_BLOCK} where the last of them is the end of the block, which counts as a place. 0 where not even one is whole.
 */
export type AcRuns = Uint16Array;

export const ENDS_BLOCK = 128;
export const PLACES = 127;

const MOST_PLACES = 63;

const made = new WeakMap<HuffmanCodes, AcRuns>(); // components and scans mostly share their tables

/** Takes together what a table of AC codes gives one by one: in smooth light a block's coefficients are a few bits each. */
export function acRuns(codes: HuffmanCodes): AcRuns {
  const known = made.get(codes);
  if (known) return known;
  const runs = new Uint16Array(1 << 16);
  for (let ahead = 0; ahead < runs.length; ahead++) {
    let bits = 0;
    let places = 0;
    let ends = 0;
    while (ends === 0) {
      const code = codes[(ahead << bits) & 0xffff]!;
      const size = code & 15;
      const length = (code >> 8) + size;
      const zeros = (code >> 4) & 15;
      const isEnd = size === 0 && zeros !== 15;
      const more = isEnd ? 1 : zeros + 1;
      if (code === 0 || bits + length > 16 || places + more > MOST_PLACES) break;
      bits += length;
      places += more;
      if (isEnd) ends = ENDS_BLOCK;
    }
    runs[ahead] = (bits << 8) | ends | places;
  }
  made.set(codes, runs);
  return runs;
}
