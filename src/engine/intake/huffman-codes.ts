/** A JPEG's Huffman code as a table over the next 16 bits: code length × 256 + symbol; 0 where no code fits. */
export type HuffmanCodes = Uint16Array;

/**
 * Builds the table from a DHT segment's counts of codes by length (16 bytes) and its symbols.
 * Source: ITU-T T.81 (1992), annex C.2.
 */
export function huffmanCodes(counts: Uint8Array, symbols: Uint8Array): HuffmanCodes {
  const table = new Uint16Array(1 << 16);
  let code = 0;
  let next = 0;
  for (let length = 1; length <= 16; length++) {
    for (let i = 0; i < counts[length - 1]! && next < symbols.length; i++) {
      const from = code << (16 - length);
      table.fill((length << 8) | symbols[next++]!, from, from + (1 << (16 - length)));
      code++;
    }
    code <<= 1;
  }
  return table;
}

/** Reads every table of a DHT segment's data into `dc` and `ac`, by table number. */
export function readHuffmanTables(data: Uint8Array, dc: HuffmanCodes[], ac: HuffmanCodes[]): void {
  for (let at = 0; at + 17 <= data.length; ) {
    const head = data[at]!;
    const counts = data.subarray(at + 1, at + 17);
    const size = counts.reduce((sum, count) => sum + count, 0);
    const tables = head >> 4 === 0 ? dc : ac;
    tables[head & 15] = huffmanCodes(counts, data.subarray(at + 17, at + 17 + size));
    at += 17 + size;
  }
}
