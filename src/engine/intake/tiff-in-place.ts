import type { ReadTiffPixels } from './read-tiff-pixels.ts';
import type { TiffHeader } from './tiff-header.ts';
import { segmentRows, type TiffSegments } from './tiff-segments.ts';

/**
 * The samples where they stand in the file, not copied: 24 megapixels of 16 bits are 144 MB. `null` where they have to
 * be unpacked, turned or put together first. What is handed out is the file itself: it may be read and not written.
 */
export function tiffInPlace(
  bytes: Uint8Array,
  header: TiffHeader,
  segments: TiffSegments,
): ReadTiffPixels | null {
  const { compression, predictor, depth, isFloat, littleEndian, isPlanar, palette, colour, alpha } = header;
  const channels = (colour === 'rgb' ? 3 : 1) + (alpha === 'none' ? 0 : 1);
  const isAsHeld =
    compression === 'none' && predictor === 1 && !isFloat && !palette && colour !== 'white-is-zero';
  const isTogether = !isPlanar && !segments.areTiles && segments.channels === channels;
  if (!isAsHeld || !isTogether || (depth !== 8 && (depth !== 16 || !littleEndian))) return null;
  if (alpha === 'associated') return null; // its colours are divided where they stand
  const first = segments.at[0]!;
  let end = first;
  for (let i = 0; i < segments.down; i++) {
    const needed = segmentRows(segments, header.heightPx, i) * segments.rowBytes;
    if (segments.at[i] !== end || segments.byteCounts[i] !== needed) return null;
    end += needed;
  }
  const from = bytes.byteOffset + first;
  if (from % (depth / 8) !== 0) return null;
  const samples =
    depth === 8
      ? new Uint8Array(bytes.buffer, from, end - first)
      : new Uint16Array(bytes.buffer, from, (end - first) / 2);
  return {
    channels: channels as 1 | 2 | 3 | 4,
    bitsPerSample: depth,
    samples,
    losses: { above: 0, below: 0 },
  };
}
