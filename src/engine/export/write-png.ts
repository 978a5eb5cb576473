import type { CorrectedPicture } from '../correct/corrected-picture.ts';
import type { Platform } from '../intake/platform.ts';
import { XMP_TEXT_LEAD } from '../intake/png-chunks.ts';
import type { StoredImage } from '../intake/stored-image.ts';
import { exifToWrite } from './exif-to-write.ts';
import { latinBytes, pngChunkBytes } from './png-chunk-bytes.ts';
import { writeFilteredRow } from './png-row-filter.ts';
import { xmpToWrite } from './xmp-to-write.ts';

/** What a PNG stated about its colours where it had no profile, to be stated again. */
export type StatedColour = Pick<StoredImage, 'sRgbStated' | 'gamma' | 'chromaticities'>;

export interface PngOptions {
  readonly stated?: StatedColour;
  readonly description?: string;
  readonly onProgress?: (fraction: number) => void;
}

/** Rows are handed to the compressor in pieces of about this size, and come back in chunks of at most it. */
const PIECE_BYTES = 1 << 20;
const COLOUR_TYPES = [0, 4, 2, 6];

/**
 * A PNG of the picture's own depth, as the pieces of a file in their order.
 * Source: ISO/IEC 15948:2004; eXIf: Portable Network Graphics, third edition (W3C, 2025), 11.3.3.
 */
export async function writePng(
  picture: CorrectedPicture,
  platform: Platform,
  { stated, description, onProgress }: PngOptions = {},
): Promise<Uint8Array[]> {
  const { widthPx, heightPx, channels, bitsPerSample, iccProfile } = picture;
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, widthPx);
  view.setUint32(4, heightPx);
  header.set([bitsPerSample, COLOUR_TYPES[channels - 1]!, 0, 0, 0], 8);
  const parts = [SIGNATURE, pngChunkBytes('IHDR', header)];
  if (iccProfile?.length)
    parts.push(pngChunkBytes('iCCP', latinBytes('profile\0\0'), ...(await deflated(iccProfile, platform))));
  else if (stated) parts.push(...statedChunks(stated));
  const exif = exifToWrite(picture);
  if (exif) parts.push(pngChunkBytes('eXIf', exif));
  const xmp = xmpToWrite(picture);
  if (xmp) parts.push(pngChunkBytes('iTXt', latinBytes(XMP_TEXT_LEAD), xmp));
  if (description !== undefined) parts.push(pngChunkBytes('tEXt', latinBytes(`Description\0${description}`)));
  let waiting: Uint8Array[] = [];
  let bytes = 0;
  const flush = () => {
    if (bytes > 0) parts.push(pngChunkBytes('IDAT', ...waiting));
    waiting = [];
    bytes = 0;
  };
  for await (const piece of platform.deflateZlib(filteredRows(picture, onProgress))) {
    waiting.push(piece);
    bytes += piece.length;
    if (bytes >= PIECE_BYTES) flush();
  }
  flush();
  parts.push(pngChunkBytes('IEND'));
  return parts;
}

const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);

async function deflated(bytes: Uint8Array, platform: Platform): Promise<Uint8Array[]> {
  const pieces: Uint8Array[] = [];
  for await (const piece of platform.deflateZlib([bytes])) pieces.push(piece);
  return pieces;
}

function statedChunks({ sRgbStated, gamma, chromaticities }: StatedColour): Uint8Array[] {
  if (sRgbStated) return [pngChunkBytes('sRGB', Uint8Array.of(0))];
  const numbers = (...values: readonly number[]) => {
    const bytes = new Uint8Array(4 * values.length);
    values.forEach((value, i) => {
      new DataView(bytes.buffer).setUint32(4 * i, Math.round(value * 1e5));
    });
    return bytes;
  };
  const chunks: Uint8Array[] = [];
  if (gamma) chunks.push(pngChunkBytes('gAMA', numbers(1 / gamma)));
  if (chromaticities) {
    const { white, red, green, blue } = chromaticities;
    chunks.push(pngChunkBytes('cHRM', numbers(...white, ...red, ...green, ...blue)));
  }
  return chunks;
}

function* filteredRows(
  { widthPx, heightPx, channels, bitsPerSample, samples }: CorrectedPicture,
  onProgress?: (fraction: number) => void,
): Generator<Uint8Array> {
  const step = channels * (bitsPerSample / 8);
  const rowBytes = widthPx * step;
  const rowsAtOnce = Math.max(1, Math.floor(PIECE_BYTES / (rowBytes + 1)));
  let row = new Uint8Array(rowBytes);
  let above = new Uint8Array(rowBytes);
  for (let y = 0; y < heightPx; ) {
    const rows = Math.min(rowsAtOnce, heightPx - y);
    const piece = new Uint8Array(rows * (rowBytes + 1)); // a new one: the compressor may still hold the last
    for (let i = 0; i < rows; i++, y++) {
      storedRow(samples, y * widthPx * channels, row);
      writeFilteredRow(row, above, step, piece, i * (rowBytes + 1));
      [row, above] = [above, row];
    }
    yield piece;
    onProgress?.(y / heightPx);
  }
}

/** One row as PNG stores it: 16 bits with the high byte first. */
function storedRow(samples: CorrectedPicture['samples'], from: number, row: Uint8Array): void {
  if (!(samples instanceof Uint16Array)) {
    row.set(samples.subarray(from, from + row.length));
    return;
  }
  for (let i = 0, at = from; i < row.length; i += 2, at++) {
    const code = samples[at]!;
    row[i] = code >> 8;
    row[i + 1] = code & 255;
  }
}
