import type { LinearFrame } from '../frame/linear-frame.ts';
import type { CodeRange } from './kept-codes.ts';
import type { PixelRectangle } from './upright-rectangle.ts';

/** How many pixels of one channel were kept, and the sums of their light from a reference and of its squares. */
export interface KeptSums {
  kept: number;
  sum: number;
  squares: number;
}

/** Writes sums over a cell's pixels to `into`; apart from all else, so that nothing but the loop's own figures is held meanwhile. */
export function sumPixels(
  { samples, channels, widthPx }: LinearFrame,
  { x0, x1, y0, y1 }: PixelRectangle,
  bank: number,
  light: Float64Array,
  { low, high }: CodeRange,
  reference: number,
  into: KeptSums,
): void {
  let kept = 0;
  let sum = 0;
  let squares = 0;
  for (let y = y0; y < y1; y++) {
    const end = (y * widthPx + x1) * channels;
    for (let i = (y * widthPx + x0) * channels + bank; i < end; i += channels) {
      const code = samples[i]!;
      if (code < low || code > high) continue;
      const off = light[code]! - reference;
      kept++;
      sum += off;
      squares += off * off;
    }
  }
  into.kept = kept;
  into.sum = sum;
  into.squares = squares;
}

/** The same from the counts of its codes. */
export function sumCounts(
  counts: Uint32Array,
  offset: number,
  light: Float64Array,
  { low, high }: CodeRange,
  reference: number,
  into: KeptSums,
): void {
  into.kept = into.sum = into.squares = 0;
  for (let code = low; code <= high; code++) {
    const n = counts[offset + code]!;
    const off = light[code]! - reference;
    into.kept += n;
    into.sum += n * off;
    into.squares += n * off * off;
  }
}
