import { srgbDecode } from '../colour/srgb-curve.ts';
import type { CellGrid } from '../grid/cell-grid.ts';

/** What a code value means in a file. */
export type CodedGrid = Pick<CellGrid, 'lightAtCode' | 'clipLight'>;

/**
 * Light of a code value from 0 to 255, in stops against the clip level, as the file codes it; a raw file, which has no
 * coding for display, as sRGB would code it. −Infinity for black.
 */
export function codeStops({ lightAtCode: { green }, clipLight }: CodedGrid, code: number): number {
  if (clipLight) return Math.log2(srgbDecode(code / 255));
  const place = (Math.max(0, Math.min(255, code)) / 255) * (green.length - 1);
  const below = Math.min(green.length - 2, Math.floor(place));
  const light = green[below]! + (place - below) * (green[below + 1]! - green[below]!);
  return Math.log2(light / green.at(-1)!);
}

/** The code value, 0 to 255 and seldom whole, of so much light: the inverse of {@link codeStops}; 255 for all above. */
export function codeAtStops(grid: CodedGrid, ev: number): number {
  let [low, high] = [0, 255];
  if (!(ev < 0)) return high;
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (codeStops(grid, middle) > ev) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
