import type { LinearFrame } from '../frame/linear-frame.ts';
import type { PixelRectangle } from './upright-rectangle.ts';

/** 16-bit codes are counted by sixteens, without their last four bits: finer than any cell's own scatter needs. */
export const DEEP_BIN_BITS = 4;
export const DEEP_BIN_CODES = 2 ** DEEP_BIN_BITS;
const BINS = 65536 / DEEP_BIN_CODES;

/** Sums over all pixels of a cell, kept or not, for red, green and blue: of their light from a reference, and of its squares. */
export interface DeepSums {
  readonly reference: Float64Array;
  readonly light: Float64Array;
  readonly squares: Float64Array;
}

export function emptyDeepSums(): DeepSums {
  return { reference: new Float64Array(3), light: new Float64Array(3), squares: new Float64Array(3) };
}

/**
 * Counts a cell's 16-bit colours into `counts` (three banks) and sums their light into `into` at once: most cells have
 * nothing set aside, and need no second pass then. The reference is the pixel's at the middle, so that nothing cancels.
 */
export function countDeepColours(
  { samples, channels, widthPx, lightAtCode: { red, green, blue } }: LinearFrame,
  { x0, x1, y0, y1 }: PixelRectangle,
  counts: Uint32Array,
  into: DeepSums,
): void {
  const middle = (((y0 + y1) >> 1) * widthPx + ((x0 + x1) >> 1)) * channels;
  const redReference = red[samples[middle]!]!;
  const greenReference = green[samples[middle + 1]!]!;
  const blueReference = blue[samples[middle + 2]!]!;
  let redSum = 0;
  let greenSum = 0;
  let blueSum = 0;
  let redSquares = 0;
  let greenSquares = 0;
  let blueSquares = 0;
  for (let y = y0; y < y1; y++) {
    const end = (y * widthPx + x1) * channels;
    for (let i = (y * widthPx + x0) * channels; i < end; i += channels) {
      const r = samples[i]!;
      const g = samples[i + 1]!;
      const b = samples[i + 2]!;
      counts[r >> DEEP_BIN_BITS]!++;
      counts[BINS + (g >> DEEP_BIN_BITS)]!++;
      counts[2 * BINS + (b >> DEEP_BIN_BITS)]!++;
      const redOff = red[r]! - redReference;
      const greenOff = green[g]! - greenReference;
      const blueOff = blue[b]! - blueReference;
      redSum += redOff;
      greenSum += greenOff;
      blueSum += blueOff;
      redSquares += redOff * redOff;
      greenSquares += greenOff * greenOff;
      blueSquares += blueOff * blueOff;
    }
  }
  into.reference.set([redReference, greenReference, blueReference]);
  into.light.set([redSum, greenSum, blueSum]);
  into.squares.set([redSquares, greenSquares, blueSquares]);
}
