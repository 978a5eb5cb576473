import { EngineError } from '../engine-error.ts';
import type { Platform } from './platform.ts';
import { type FloatLosses, tiffCodes } from './tiff-codes.ts';
import type { TiffHeader } from './tiff-header.ts';
import { undoTiffLzw } from './tiff-lzw.ts';
import { undoPackBits } from './tiff-packbits.ts';
import { damagedTiff, unreadTiff } from './tiff-refusals.ts';
import { type TiffSampleWriter, tiffSampleWriter } from './tiff-sample-writer.ts';
import { segmentRows, type TiffSegments } from './tiff-segments.ts';

/** A TIFF's samples as a StoredImage holds them. */
export interface ReadTiffPixels extends Omit<TiffSampleWriter, 'write'> {
  readonly losses: FloatLosses;
}

/** Streams inflated at once: starting one costs a browser more than the few rows that most pieces hold. */
const INFLATED_AT_ONCE = 8;

/**
 * Unpacks and places a TIFF's samples, piece by piece. A piece may hold more than it needs, never less.
 *
 * @throws {@link EngineError} `unreadable-file`; `unsupported-file` for the LZW of before 1992.
 */
export async function readTiffPixels(
  bytes: Uint8Array,
  header: TiffHeader,
  segments: TiffSegments,
  platform: Platform,
  onProgress?: (fraction: number) => void,
): Promise<ReadTiffPixels> {
  const writer = tiffSampleWriter(header);
  const losses: FloatLosses = { above: 0, below: 0 };
  const { across, down, rowBytes, channels } = segments;
  const perChannel = across * down;
  const count = perChannel * (header.isPlanar ? Math.min(header.storedChannels, writer.channels) : 1);
  const atOnce = header.compression === 'deflate' ? INFLATED_AT_ONCE : 1;
  // one room for all pieces; streams that run side by side have one each
  const room = new Uint8Array(header.compression === 'deflate' ? 0 : rowBytes * segments.heightPx);
  const unpack = (index: number): Uint8Array<ArrayBuffer> | Promise<Uint8Array<ArrayBuffer>> => {
    const at = segments.at[index]!;
    const packed = bytes.subarray(at, at + segments.byteCounts[index]!);
    const needed = segmentRows(segments, header.heightPx, index) * rowBytes;
    if (header.compression === 'deflate') return inflated(packed, needed, platform);
    const out = room.subarray(0, needed);
    if (header.compression === 'none') out.set(packed);
    else requireWhole(header.compression === 'lzw' ? lzw(packed, out) : undoPackBits(packed, out), needed);
    return out;
  };
  let nextReport = 0;
  for (let first = 0; first < count; first += atOnce) {
    const here = Array.from({ length: Math.min(atOnce, count - first) }, (_, i) => first + i);
    const unpacked = await Promise.all(here.map(unpack));
    unpacked.forEach((piece, i) => {
      const index = first + i;
      const x = (index % across) * segments.widthPx;
      const y = Math.floor((index % perChannel) / across) * segments.heightPx;
      const codes = tiffCodes(piece, rowBytes, channels, header, losses);
      writer.write({
        codes,
        rowCodes: (codes.length * rowBytes) / piece.length,
        channels,
        firstChannel: Math.floor(index / perChannel),
        ...{ x, y },
        columns: Math.min(segments.widthPx, header.widthPx - x),
        rows: Math.min(segmentRows(segments, header.heightPx, index), header.heightPx - y),
      });
    });
    if (onProgress && first >= nextReport) {
      onProgress((first + here.length) / count);
      nextReport = first + count / 50;
    }
  }
  return { ...writer, losses };
}

function lzw(packed: Uint8Array, out: Uint8Array): number {
  // the old manner wrote the lowest bit first: its clear code shows
  if (packed[0] === 0 && packed[1]! & 1)
    throw unreadTiff('is compressed by LZW in the manner of before 1992', 'anew, as a TIFF or PNG');
  const length = undoTiffLzw(packed, out);
  if (length < 0) throw damagedTiff('its picture data does not decompress');
  return length;
}

async function inflated(
  packed: Uint8Array,
  needed: number,
  platform: Platform,
): Promise<Uint8Array<ArrayBuffer>> {
  const out = new Uint8Array(needed);
  let filled = 0;
  try {
    for await (const piece of platform.inflateZlib([packed])) {
      out.set(piece.subarray(0, needed - filled), filled);
      filled += Math.min(piece.length, needed - filled);
      if (filled === needed) break;
    }
  } catch (cause) {
    if (cause instanceof EngineError) throw cause;
    throw damagedTiff('its picture data does not decompress', cause);
  }
  requireWhole(filled, needed);
  return out;
}

function requireWhole(found: number, needed: number): void {
  if (found < needed)
    throw damagedTiff(
      `a piece of its picture data ends at ${found} bytes, too few for the ${needed} that it needs`,
    );
}
