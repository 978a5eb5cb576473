import { CLIPPED_CELL_SHARE } from '../fits/measure-cells.ts';
import type { FrameRectangle } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';
import { type CropTest, cropPasses } from './crop-passes.ts';
import { limitStops } from './limit-stops.ts';

/** The part of the region that is even enough. */
export interface Within {
  /** Share of all cells that lie within tolerance of the brightest, 0 to 1. */
  readonly share: number;
  /** Largest crop of the frame's own shape that passes, of at least 2 × 2 cells; `null` where none does. */
  readonly crop: FrameRectangle | null;
}

/** The cells of a region to look through. */
export interface EvennessMap {
  /** As in a Reading: stops below the brightest, row-major, `null` where nothing was measured. */
  readonly evMap: readonly (number | null)[];
  readonly columns: number;
  readonly rows: number;
  readonly region: FrameRectangle;
  /** Share of each cell's pixels that are clipped, 0 to 1; nothing clips where left out. */
  readonly highlightShare?: Float64Array;
}

/** Below two cells there is no evenness to speak of. */
const FEWEST_CELLS = 2;

/** Crops of equal size to within this share of the frame are one. */
const SAME_SIZE = 1e-9;

/**
 * Finds the part within tolerance and the largest crop that passes the tolerance's own measure. The crop has the
 * frame's aspect whatever the region's: as large a share of the frame's width as of its height. It may be small: a
 * move to it is another matter. A cell without a measurement is not within; a crop that touches it, or one whose
 * light is clipped and therefore unknown, fails.
 *
 * Exact over the cells: every width of whole columns and every height of whole rows is tried at every place, a
 * crop touching a cell counts it in whole. Windows grow by one column or row at a time, so their extremes cost one
 * comparison a cell and size. Of several places the one with the least spread is taken.
 */
export function within(map: EvennessMap, tolerance: Tolerance): Within {
  const { evMap, columns, rows, highlightShare } = map;
  if (evMap.length !== columns * rows)
    throw new RangeError(`${evMap.length} cells do not make ${columns} × ${rows}`);
  const ev = Float64Array.from(evMap, (value) => value ?? Number.NaN);
  const limit = limitStops(tolerance);
  let inside = 0;
  for (const value of ev) if (value >= -limit) inside++;
  const known = ev.map((value, cell) =>
    (highlightShare?.[cell] ?? 0) > CLIPPED_CELL_SHARE ? Number.NaN : value,
  );
  return { share: inside / ev.length, crop: largestCrop(known, map, tolerance) };
}

/** Sizes from this share of the largest on are looked through first; smaller ones only where none of them passes. */
const LARGE_SHARE = 1 / 4;

function largestCrop(ev: Float64Array, map: EvennessMap, tolerance: Tolerance): FrameRectangle | null {
  const { columns, rows, region } = map;
  const width = region.right - region.left;
  const height = region.bottom - region.top;
  const passes = cropPasses(ev, columns, rows, tolerance);
  const all = sizes(width, height, columns, rows);
  const large = LARGE_SHARE * Math.min(width, height);
  const best =
    largestPassing(ev, map, passes, all, large) ??
    largestPassing(
      ev,
      map,
      passes,
      all.filter((size) => size < large),
      0,
    );
  if (best === null) return null;
  const { size, across, down } = best;
  if (size > Math.max(width, height) - SAME_SIZE) return region;
  // The touched cells may be a little wider than the crop: it sits in their middle.
  const left = region.left + across * width - size / 2;
  const top = region.top + down * height - size / 2;
  return { left, top, right: left + size, bottom: top + size };
}

/** The largest crop that passes, of those of at least a size; its centre is given across the region, 0 to 1. */
function largestPassing(
  ev: Float64Array,
  { columns, rows, region }: EvennessMap,
  passes: CropTest,
  ascending: readonly number[],
  leastSize: number,
): { size: number; across: number; down: number } | null {
  const low = ev.map((value) => (Number.isNaN(value) ? Number.NEGATIVE_INFINITY : value));
  const high = ev.map((value) => (Number.isNaN(value) ? Number.POSITIVE_INFINITY : value));
  let wide = 1;
  let tall = 1;
  let best: { size: number; across: number; down: number } | null = null;
  for (const size of ascending) {
    const nextWide = Math.ceil((size / (region.right - region.left)) * columns - 1e-9);
    const nextTall = Math.ceil((size / (region.bottom - region.top)) * rows - 1e-9);
    for (; wide < nextWide; wide++) growAcross({ low, high, columns, rows, wide, tall });
    for (; tall < nextTall; tall++) growDown({ low, high, columns, rows, wide, tall });
    if (size < leastSize || wide < FEWEST_CELLS || tall < FEWEST_CELLS) continue;
    let least = Number.POSITIVE_INFINITY;
    for (let row = 0; row <= rows - tall; row++) {
      for (let column = 0; column <= columns - wide; column++) {
        const cell = row * columns + column;
        const spread = high[cell]! - low[cell]!;
        if (spread < least && passes(column, row, wide, tall, low[cell]!, high[cell]!)) {
          least = spread;
          best = { size, across: (column + wide / 2) / columns, down: (row + tall / 2) / rows };
        }
      }
    }
  }
  return best;
}

/** Every share of the frame that is a whole number of columns wide or rows tall and fits the region, smallest first. */
function sizes(width: number, height: number, columns: number, rows: number): number[] {
  const largest = Math.min(width, height);
  const fitting: number[] = [];
  for (let wide = 1; wide <= columns; wide++) fitting.push((wide / columns) * width);
  for (let tall = 1; tall <= rows; tall++) fitting.push((tall / rows) * height);
  return fitting
    .filter((size) => size <= largest + SAME_SIZE)
    .sort((a, b) => a - b)
    .filter((size, at, sorted) => at === sorted.length - 1 || sorted[at + 1]! - size > SAME_SIZE);
}

/** The extremes of every window of one size, at the window's first cell. */
interface WindowExtremes {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly columns: number;
  readonly rows: number;
  readonly wide: number;
  readonly tall: number;
}

/** Widens all windows by a column (modifies): the union with the window one cell to the right. */
function growAcross({ low, high, columns, rows, wide, tall }: WindowExtremes): void {
  for (let row = 0; row <= rows - tall; row++) {
    const end = (row + 1) * columns - wide;
    for (let cell = row * columns; cell < end; cell++) {
      if (low[cell + 1]! < low[cell]!) low[cell] = low[cell + 1]!;
      if (high[cell + 1]! > high[cell]!) high[cell] = high[cell + 1]!;
    }
  }
}

/** Makes all windows taller by a row (modifies). */
function growDown({ low, high, columns, rows, wide, tall }: WindowExtremes): void {
  for (let row = 0; row < rows - tall; row++) {
    const end = (row + 1) * columns - wide;
    for (let cell = row * columns; cell <= end; cell++) {
      if (low[cell + columns]! < low[cell]!) low[cell] = low[cell + columns]!;
      if (high[cell + columns]! > high[cell]!) high[cell] = high[cell + columns]!;
    }
  }
}
