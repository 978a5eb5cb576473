import type { FrameRectangle } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';
import { cropPasses } from './crop-passes.ts';
import { limitStops } from './limit-stops.ts';

/** The part of the region that is even enough. */
export interface Within {
  /** Share of all cells that lie within tolerance of the brightest, 0 to 1. */
  readonly share: number;
  /** Largest crop of the region's own shape that passes; `null` where none of a quarter of its width does. */
  readonly crop: FrameRectangle | null;
}

/** A crop smaller than this part of the region's width is no frame any more. */
const LEAST_PART = 1 / 4;

/**
 * Finds the part within tolerance and the largest crop of the region's shape that passes the tolerance's own
 * measure. `evMap` as in a Reading: stops below the brightest, `null` where nothing was measured; such a cell is
 * not within, and a crop that touches it fails.
 *
 * Exact over the cells: every width of whole columns and every height of whole rows is tried at every place, a
 * crop touching a cell counts it in whole. Windows grow by one column or row at a time, so their extremes cost one
 * comparison a cell and size. Of several places the one with the least spread is taken.
 */
export function within(
  evMap: readonly (number | null)[],
  columns: number,
  rows: number,
  region: FrameRectangle,
  tolerance: Tolerance,
): Within {
  if (evMap.length !== columns * rows)
    throw new RangeError(`${evMap.length} cells do not make ${columns} × ${rows}`);
  const ev = Float64Array.from(evMap, (value) => value ?? Number.NaN);
  const limit = limitStops(tolerance);
  let inside = 0;
  for (const value of ev) if (value >= -limit) inside++;
  return { share: inside / ev.length, crop: largestCrop(ev, columns, rows, region, tolerance) };
}

function largestCrop(
  ev: Float64Array,
  columns: number,
  rows: number,
  region: FrameRectangle,
  tolerance: Tolerance,
): FrameRectangle | null {
  const passes = cropPasses(ev, columns, rows, tolerance);
  const low = ev.map((value) => (Number.isNaN(value) ? Number.NEGATIVE_INFINITY : value));
  const high = ev.map((value) => (Number.isNaN(value) ? Number.POSITIVE_INFINITY : value));
  let wide = 1;
  let tall = 1;
  let best: { scale: number; column: number; row: number; wide: number; tall: number } | null = null;
  for (const scale of scales(columns, rows)) {
    const nextWide = Math.ceil(scale * columns - 1e-9);
    const nextTall = Math.ceil(scale * rows - 1e-9);
    for (; wide < nextWide; wide++) growAcross({ low, high, columns, rows, wide, tall });
    for (; tall < nextTall; tall++) growDown({ low, high, columns, rows, wide, tall });
    if (scale < LEAST_PART) continue;
    let least = Number.POSITIVE_INFINITY;
    for (let row = 0; row <= rows - tall; row++) {
      for (let column = 0; column <= columns - wide; column++) {
        const cell = row * columns + column;
        const spread = high[cell]! - low[cell]!;
        if (spread < least && passes(column, row, wide, tall, low[cell]!, high[cell]!)) {
          least = spread;
          best = { scale, column, row, wide, tall };
        }
      }
    }
  }
  if (best === null) return null;
  if (best.scale === 1) return region;
  // The touched cells may be a little wider than the crop: it sits in their middle.
  const left = (best.column + best.wide / 2) / columns - best.scale / 2;
  const top = (best.row + best.tall / 2) / rows - best.scale / 2;
  const width = region.right - region.left;
  const height = region.bottom - region.top;
  return {
    left: region.left + left * width,
    top: region.top + top * height,
    right: region.left + (left + best.scale) * width,
    bottom: region.top + (top + best.scale) * height,
  };
}

/** Every part of the region that is a whole number of columns wide or rows tall, smallest first. */
function scales(columns: number, rows: number): number[] {
  const parts = new Set<number>();
  for (let wide = 1; wide <= columns; wide++) parts.add(wide / columns);
  for (let tall = 1; tall <= rows; tall++) parts.add(tall / rows);
  return [...parts].sort((a, b) => a - b);
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
