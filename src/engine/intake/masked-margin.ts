import type { RawMosaic } from './raw-file.ts';

/** Narrower margins may be no masked cells at all. */
const FEWEST_COLUMNS = 16;
/** Cells next to the picture may see a little of its light. */
const GAP_COLUMNS = 4;
const MOST_ROWS = 512;
/** Cells further from the median than this many quartile ranges are faulty ones. */
const REACH = 3;

/**
 * What the masked cells at a sensor's left read on average, for the four cells of a quad from the picture's corner;
 * `null` where the file carries too few of them.
 */
export function maskedBlack(mosaic: RawMosaic): readonly [number, number, number, number] | null {
  const { data, raw_width, left_margin, top_margin, height } = mosaic;
  const columns = left_margin - GAP_COLUMNS;
  if (columns < FEWEST_COLUMNS) return null;
  const rows = Math.min(height, MOST_ROWS);
  const levels = [0, 1, 2, 3].map((site) => {
    const cells: number[] = [];
    for (let row = site >> 1; row < rows; row += 2)
      // from the picture's own corner leftwards, so that columns are told apart as in the picture
      for (let column = (site & 1) - 2 * Math.ceil(GAP_COLUMNS / 2); column >= -columns; column -= 2)
        cells.push(data[(row + top_margin) * raw_width + left_margin + column]!);
    return meanNearMedian(Float64Array.from(cells));
  });
  return levels as unknown as readonly [number, number, number, number];
}

function meanNearMedian(cells: Float64Array): number {
  cells.sort();
  const at = (share: number) => cells[Math.floor(share * (cells.length - 1))]!;
  const reach = REACH * Math.max(1, at(0.75) - at(0.25));
  const near = cells.filter((cell) => Math.abs(cell - at(0.5)) <= reach);
  return near.reduce((sum, cell) => sum + cell, 0) / near.length;
}
