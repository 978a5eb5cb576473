/** What a file is by its content; the name never counts. */
export type FileFormat =
  | 'empty'
  | 'text'
  | 'jpeg'
  | 'png'
  | 'tiff'
  | 'raw'
  | 'webp'
  | 'avif'
  | 'heic'
  | 'gif'
  | 'bmp'
  | 'jpeg-xl'
  | 'jpeg-2000'
  | 'openexr'
  | 'layered'
  | 'unknown';

/**
 * Tells a file's format from its first bytes. A raw file that is laid out as plain TIFF reads `tiff` here: which of the
 * two it is stands in its directory, not in its first bytes.
 */
export function sniffFormat(bytes: Uint8Array): FileFormat {
  if (bytes.length === 0) return 'empty';
  for (const { format, at, hex } of SIGNATURES) if (matches(bytes, at, hex)) return format;
  if (ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 12) === 'WEBP') return 'webp';
  if (ascii(bytes, 4, 8) === 'ftyp') return brandFormat(bytes);
  if (looksLikeText(bytes)) return 'text'; // before the bitmap, whose two letters may begin a sentence
  return ascii(bytes, 0, 2) === 'BM' ? 'bmp' : 'unknown';
}

/** First match wins: the raw layouts that start like TIFF stand before it. Bytes from the formats' own descriptions [M]. */
const SIGNATURES: readonly { format: FileFormat; at: number; hex: string }[] = [
  { format: 'jpeg', at: 0, hex: 'ffd8' },
  { format: 'png', at: 0, hex: '89504e470d0a1a0a' },
  { format: 'raw', at: 8, hex: '4343442d524157' }, // "CCD-RAW" after a maker's name
  { format: 'raw', at: 8, hex: '435202' }, // a TIFF header followed by "CR" and a version
  { format: 'raw', at: 6, hex: '4845415043434452' }, // "HEAPCCDR"
  { format: 'raw', at: 0, hex: '004d524d' },
  { format: 'raw', at: 0, hex: '49495500' },
  { format: 'raw', at: 0, hex: '4949524f' },
  { format: 'raw', at: 0, hex: '49495253' },
  { format: 'raw', at: 0, hex: '4d4d4f52' },
  { format: 'raw', at: 0, hex: '464f5662' },
  { format: 'tiff', at: 0, hex: '49492a00' },
  { format: 'tiff', at: 0, hex: '4d4d002a' },
  { format: 'tiff', at: 0, hex: '49492b00' },
  { format: 'tiff', at: 0, hex: '4d4d002b' },
  { format: 'gif', at: 0, hex: '474946383761' },
  { format: 'gif', at: 0, hex: '474946383961' },
  { format: 'jpeg-xl', at: 0, hex: 'ff0a' },
  { format: 'jpeg-xl', at: 0, hex: '0000000c4a584c20' },
  { format: 'jpeg-2000', at: 0, hex: '0000000c6a502020' },
  { format: 'jpeg-2000', at: 0, hex: 'ff4fff51' },
  { format: 'openexr', at: 0, hex: '762f3101' },
  { format: 'layered', at: 0, hex: '38425053' },
];

function matches(bytes: Uint8Array, at: number, hex: string): boolean {
  if (bytes.length < at + hex.length / 2) return false;
  for (let i = 0; i < hex.length; i += 2)
    if (bytes[at + i / 2] !== Number.parseInt(hex.slice(i, i + 2), 16)) return false;
  return true;
}

function ascii(bytes: Uint8Array, from: number, to: number): string {
  return bytes.length < to ? '' : String.fromCharCode(...bytes.subarray(from, to));
}

const HEVC_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx'];
const LONGEST_BRANDS_BYTES = 256;

/** ISO base media files name what they hold by a four-letter brand. */
function brandFormat(bytes: Uint8Array): FileFormat {
  const brand = ascii(bytes, 8, 12);
  const boxEnd = Math.min(bytes.length, ((bytes[2] ?? 0) << 8) | (bytes[3] ?? 0), LONGEST_BRANDS_BYTES);
  const brands = [brand];
  for (let at = 16; at + 4 <= boxEnd; at += 4) brands.push(ascii(bytes, at, at + 4));
  const isOneOf = (known: readonly string[]) => brands.some((each) => known.includes(each));
  if (['avif', 'avis'].includes(brand)) return 'avif';
  if (HEVC_BRANDS.includes(brand)) return 'heic';
  // "a still picture", or several, of whatever coding: the compatible brands say which
  if (brand === 'mif1' || brand === 'msf1') return isOneOf(['avif', 'avis']) ? 'avif' : 'heic';
  return brand === 'crx ' ? 'raw' : 'unknown';
}

/** Text: no control bytes but white space among the first kilobyte. */
function looksLikeText(bytes: Uint8Array): boolean {
  const start = bytes.subarray(0, 1024);
  const isUtf16 =
    start.length > 1 &&
    ((start[0] === 0xff && start[1] === 0xfe) || (start[0] === 0xfe && start[1] === 0xff));
  return isUtf16 || start.every((byte) => (byte >= 0x20 ? byte !== 0x7f : byte >= 0x09 && byte <= 0x0d));
}
