/**
 * CRC-32 of a run of bytes, as PNG and gzip use it.
 * Source: ISO/IEC 15948:2004 (PNG), annex D: polynomial 0xEDB88320, reflected, start and end inverted. Eight bytes a
 * step after M. Kounavis and F. Berry, "A systematic approach to building high performance software-based CRC
 * generators", ISCC 2005.
 */
export function crc32(bytes: Uint8Array, from = 0, to = bytes.length): number {
  let crc = -1;
  let at = from;
  for (; at + 8 <= to; at += 8) {
    const low = crc ^ (bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24));
    crc =
      TABLES[1792 + (low & 255)]! ^
      TABLES[1536 + ((low >>> 8) & 255)]! ^
      TABLES[1280 + ((low >>> 16) & 255)]! ^
      TABLES[1024 + (low >>> 24)]! ^
      TABLES[768 + bytes[at + 4]!]! ^
      TABLES[512 + bytes[at + 5]!]! ^
      TABLES[256 + bytes[at + 6]!]! ^
      TABLES[bytes[at + 7]!]!;
  }
  for (; at < to; at++) crc = TABLES[(crc ^ bytes[at]!) & 255]! ^ (crc >>> 8);
  return ~crc >>> 0;
}

/** Table k × 256 + byte: what that byte leaves in the remainder k bytes later. */
const TABLES = crcTables();

function crcTables(): Int32Array {
  const tables = new Int32Array(8 * 256);
  for (let byte = 0; byte < 256; byte++) {
    let crc = byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
    tables[byte] = crc;
  }
  for (let entry = 256; entry < tables.length; entry++) {
    const earlier = tables[entry - 256]!;
    tables[entry] = tables[earlier & 255]! ^ (earlier >>> 8);
  }
  return tables;
}
