import { LARGEST_PICTURE_PIXELS } from './picture-size.ts';
import type { TiffDirectory } from './tiff-directory.ts';
import type { TiffCompression, TiffHeader } from './tiff-header.ts';
import { damagedTiff } from './tiff-refusals.ts';

/** A picture's strips or tiles: a grid of pieces of one size, of which those at the edges may stand over. */
export interface TiffSegments {
  /** Of a whole piece. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly across: number;
  readonly down: number;
  /** Samples that stand beside each other in a piece: one where each channel has its own pieces. */
  readonly channels: number;
  /** Of one row of a piece, filled up to whole bytes. */
  readonly rowBytes: number;
  /** By channel (where each has its own pieces), row and column of the grid. */
  readonly at: Float64Array;
  readonly byteCounts: Float64Array;
  /** A strip at the bottom is cut short; a tile is always whole. */
  readonly areTiles: boolean;
}

const TAG = {
  stripOffsets: 273,
  rowsPerStrip: 278,
  stripByteCounts: 279,
  tileWidth: 322,
  tileLength: 323,
  tileOffsets: 324,
  tileByteCounts: 325,
} as const;

/**
 * What each compression can reach at most: LZW's longest string of 12 bits, deflate's 258 bytes from two bits (RFC
 * 1951, 3.2.5), PackBits' run of 128 from two bytes.
 */
const STEEPEST: Readonly<Record<TiffCompression, number>> = {
  none: 1,
  lzw: 2731,
  deflate: 1032,
  packbits: 64,
};
const LARGEST_SEGMENT_BYTES = 2 ** 31 - 1;

/**
 * Finds where the pieces stand, and refuses a file that can't hold the picture it claims, before anything is allocated.
 *
 * @throws {@link EngineError} `unreadable-file`.
 */
export function tiffSegments(directory: TiffDirectory, header: TiffHeader, fileBytes: number): TiffSegments {
  const areTiles = directory.number(TAG.tileWidth) !== null;
  const heightPx = areTiles ? directory.number(TAG.tileLength) : rowsPerStrip(directory, header.heightPx);
  const widthPx = areTiles ? directory.number(TAG.tileWidth) : header.widthPx;
  if (!(widthPx && heightPx && widthPx * heightPx <= LARGEST_PICTURE_PIXELS))
    throw damagedTiff(`its pieces measure ${widthPx} × ${heightPx} pixels`);
  const across = Math.ceil(header.widthPx / widthPx);
  const down = Math.ceil(header.heightPx / heightPx);
  const channels = header.isPlanar ? 1 : header.storedChannels;
  const rowBytes = Math.ceil((widthPx * channels * header.depth) / 8);
  const count = across * down * (header.isPlanar ? header.storedChannels : 1);
  const at = directory.numbers(areTiles ? TAG.tileOffsets : TAG.stripOffsets, fileBytes);
  if (!at || at.length < count) throw damagedTiff(`it names ${at?.length ?? 0} of its ${count} pieces`);
  const segments = { widthPx, heightPx, across, down, channels, rowBytes, at, areTiles };
  const neededOf = (index: number) => segmentRows(segments, header.heightPx, index) * rowBytes;
  const stated = directory.numbers(areTiles ? TAG.tileByteCounts : TAG.stripByteCounts, fileBytes);
  // what is not compressed has a known length; any padding behind it is left alone
  const byteCounts =
    header.compression === 'none'
      ? Float64Array.from({ length: count }, (_, i) => Math.min(neededOf(i), stated?.[i] ?? neededOf(i)))
      : stated;
  if (!byteCounts || byteCounts.length < count)
    throw damagedTiff(`it tells the length of ${byteCounts?.length ?? 0} of its ${count} pieces`);
  const steepest = STEEPEST[header.compression];
  let needed = 0;
  for (let i = 0; i < count; i++) {
    const end = at[i]! + byteCounts[i]!;
    if (end > fileBytes)
      throw damagedTiff(`it ends at ${fileBytes} bytes, and piece ${i + 1} of ${count} needs up to ${end}`);
    if (byteCounts[i]! * steepest < neededOf(i) || neededOf(i) > LARGEST_SEGMENT_BYTES)
      throw damagedTiff(`the ${byteCounts[i]} bytes of a piece can’t hold the ${neededOf(i)} that it needs`);
    needed += neededOf(i);
  }
  // pieces that share their bytes may not make more of a file than it could hold
  if (fileBytes * steepest < needed)
    throw damagedTiff(`its ${fileBytes} bytes can’t hold the ${needed} that its size needs`);
  return { ...segments, byteCounts };
}

/** Rows that a piece holds, counted along its channel's grid. */
export function segmentRows(
  { areTiles, heightPx, across, down }: Pick<TiffSegments, 'areTiles' | 'heightPx' | 'across' | 'down'>,
  pictureHeightPx: number,
  index: number,
): number {
  const row = Math.floor((index % (across * down)) / across);
  return areTiles ? heightPx : Math.min(heightPx, pictureHeightPx - row * heightPx);
}

function rowsPerStrip(directory: TiffDirectory, heightPx: number): number {
  return Math.min(heightPx, directory.number(TAG.rowsPerStrip) ?? heightPx);
}
