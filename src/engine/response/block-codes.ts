import type { StoredImage } from '../intake/stored-image.ts';
import { codeOfMeanLight } from './code-axis.ts';

/** A lattice of square blocks over a picture as stored; those of a JPEG hold whole blocks of its own. */
export interface BlockLayout {
  readonly columns: number;
  readonly rows: number;
  readonly sidePx: number;
}

/** What the blocks of one frame hold, per channel: red, green, blue, or grey alone. */
export interface BlockCodes {
  readonly layout: BlockLayout;
  readonly channels: readonly BlockChannel[];
}

export interface BlockChannel {
  /** Code of each block's mean light; NaN where any of its pixels is clipped or black, or easily could be. */
  readonly code: Float32Array;
  /** Variance of the codes within each block. */
  readonly variance: Float32Array;
  /** Shares of pixels at the limits. */
  readonly clippedShare: number;
  readonly blackShare: number;
}

/** Side of a JPEG's own blocks. */
const JPEG_BLOCK_PX = 8;
const MOST_BLOCKS = 12_000;
const LARGEST_SIDE_PX = 32;
/** Standard deviations of a block's codes that its mean is to be away from the ends. */
const SIGMAS_CLEAR = 3;

export function blockLayout(widthPx: number, heightPx: number): BlockLayout {
  const times = Math.ceil(Math.sqrt((widthPx * heightPx) / MOST_BLOCKS) / JPEG_BLOCK_PX);
  const sidePx = Math.min(LARGEST_SIDE_PX, Math.max(1, times) * JPEG_BLOCK_PX);
  return { sidePx, columns: Math.floor(widthPx / sidePx), rows: Math.floor(heightPx / sidePx) };
}

/**
 * Averages each block's codes. Codes at the ends are limits, not light: a JPEG's rounding between colour models lets
 * clipped white come back one code lower, and black one higher.
 */
export function blockCodes(stored: StoredImage, layout: BlockLayout): BlockCodes {
  const [floorCode, clipCode] = stored.format === 'jpeg' || stored.isLossy ? [1, 254] : [0, 255];
  const isGrey = stored.isGreyJpeg || stored.channels < 3;
  const offsets = isGrey ? [0] : [0, 1, 2];
  return {
    layout,
    channels: offsets.map((offset) => blocksOfChannel(stored, layout, offset, floorCode, clipCode)),
  };
}

function blocksOfChannel(
  { samples, widthPx, channels }: StoredImage,
  { columns, rows, sidePx }: BlockLayout,
  offset: number,
  floorCode: number,
  clipCode: number,
): BlockChannel {
  const code = new Float32Array(columns * rows);
  const variance = new Float32Array(columns * rows);
  const pixels = sidePx * sidePx;
  let clipped = 0;
  let black = 0;
  for (let row = 0, block = 0; row < rows; row++)
    for (let column = 0; column < columns; column++, block++) {
      let [sum, squares, least, most] = [0, 0, 255, 0];
      for (let down = 0; down < sidePx; down++) {
        let at = ((row * sidePx + down) * widthPx + column * sidePx) * channels + offset;
        for (let right = 0; right < sidePx; right++, at += channels) {
          const value = samples[at]!;
          sum += value;
          squares += value * value;
          if (value < least) least = value;
          if (value > most) most = value;
          if (value >= clipCode) clipped++;
          else if (value <= floorCode) black++;
        }
      }
      const mean = sum / pixels;
      variance[block] = Math.max(0, squares / pixels - mean * mean);
      // near the ends those that keep clear of them by chance would be taken for all
      const reach = SIGMAS_CLEAR * Math.sqrt(variance[block]!);
      const isClear = mean - reach > floorCode && mean + reach < clipCode;
      const isWhole = least > floorCode && most < clipCode;
      code[block] = isClear && isWhole ? codeOfMeanLight(mean, variance[block]!) : Number.NaN;
    }
  const all = Math.max(1, pixels * code.length);
  return { code, variance, clippedShare: clipped / all, blackShare: black / all };
}
