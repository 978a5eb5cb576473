import type { CellGrid } from '../grid/cell-grid.ts';
import { quantile } from '../numeric/quantile.ts';
import type { Exposure, Measurement } from '../reading.ts';

/** The measured light that a set is fitted to: means of blocks of cells, row by row, gaps left out. */
export interface SetSamples {
  /** Frame widths right of and below the middle of the frame. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Stops below the brightest cell. */
  readonly ev: Float64Array;
  readonly uPrime: Float64Array;
  readonly vPrime: Float64Array;
  /** Height of the frame over its width. */
  readonly aspect: number;
  /** Luminance at 0 EV of the above, in stops against white. */
  readonly levelEv: number;
  /** What the exposure added to that, in stops; `null` where the file does not say all of it. */
  readonly exposureEv: number | null;
}

/** Blocks along the frame's longer side: finer than any light of a set falls off. */
const LONG_SIDE = 15;

/** Blocks with fewer of their cells measured say too little. */
const LEAST_MEASURED = 0.5;

/** A cell with more of its pixels clipped than this shows no light to be fitted. */
const MOST_CLIPPED = 0.02;

/**
 * Pools the maps of a reading. Colour is that of the cells, weighted alike. The maps are smoothed over five cells, so
 * that those up to two cells off are left out with a clipped one.
 */
export function setSamples(
  { falloff, tint, grid, region, frame }: Measurement,
  cells: Pick<CellGrid, 'highlightShare' | 'light' | 'toXyz'>,
): SetSamples {
  const isHidden = nearClipped(cells.highlightShare, grid.columns, grid.rows);
  const long = Math.max(grid.columns, grid.rows);
  const across = Math.max(1, Math.round((LONG_SIDE * grid.columns) / long));
  const down = Math.max(1, Math.round((LONG_SIDE * grid.rows) / long));
  const aspect = frame.heightPx / frame.widthPx;
  const [width, height] = [region.right - region.left, region.bottom - region.top];
  const blocks = Array.from({ length: across * down }, () => ({
    all: 0,
    n: 0,
    x: 0,
    y: 0,
    ev: 0,
    u: 0,
    v: 0,
  }));
  for (let cell = 0; cell < grid.columns * grid.rows; cell++) {
    const column = cell % grid.columns;
    const row = Math.floor(cell / grid.columns);
    const block =
      blocks[Math.floor((row * down) / grid.rows) * across + Math.floor((column * across) / grid.columns)]!;
    block.all++;
    const [ev, u, v] = [falloff.evMap[cell], tint.uPrimeMap[cell], tint.vPrimeMap[cell]];
    if (ev == null || u == null || v == null || isHidden[cell] === 1) continue;
    block.n++;
    block.x += region.left + ((column + 0.5) / grid.columns) * width - 0.5;
    block.y += (region.top + ((row + 0.5) / grid.rows) * height - 0.5) * aspect;
    block.ev += ev;
    block.u += u;
    block.v += v;
  }
  const kept = blocks.filter(({ n, all }) => n >= LEAST_MEASURED * all && n > 0);
  const mean = (of: (block: (typeof kept)[number]) => number) =>
    Float64Array.from(kept, (block) => of(block) / block.n);
  return {
    x: mean(({ x }) => x),
    y: mean(({ y }) => y),
    ev: mean(({ ev }) => ev),
    uPrime: mean(({ u }) => u),
    vPrime: mean(({ v }) => v),
    aspect,
    levelEv: levelEv(falloff.evMap, cells),
    exposureEv: exposureEv(frame.exposure),
  };
}

/** How far the cells' own luminance lies above the map, which is 0 at its brightest: the median, as cells err. */
function levelEv(
  evMap: Measurement['falloff']['evMap'],
  { light, toXyz }: Pick<CellGrid, 'light' | 'toXyz'>,
): number {
  const [red, green, blue] = [toXyz[3], toXyz[4], toXyz[5]];
  const above = evMap.flatMap((ev, i) => {
    const luminance = red * light.red[i]! + green * light.green[i]! + blue * light.blue[i]!;
    return ev === null || Number.isNaN(luminance) ? [] : [Math.log2(luminance) - ev];
  });
  return quantile(above, 0.5);
}

/** log2(t S / N²), S the ISO speed over 100: light that a file shows goes by it. */
function exposureEv(exposure: Exposure | null): number | null {
  if (exposure === null) return null;
  const { seconds, fNumber, iso } = exposure;
  if (seconds === null || fNumber === null || iso === null) return null;
  return Math.log2((seconds * iso) / 100 / fNumber ** 2);
}

function nearClipped(share: ArrayLike<number>, columns: number, rows: number): Uint8Array {
  const hidden = new Uint8Array(columns * rows);
  for (let cell = 0; cell < hidden.length; cell++) {
    if (!(share[cell]! > MOST_CLIPPED)) continue;
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    for (let r = Math.max(0, row - 2); r <= Math.min(rows - 1, row + 2); r++)
      for (let c = Math.max(0, column - 2); c <= Math.min(columns - 1, column + 2); c++)
        hidden[r * columns + c] = 1;
  }
  return hidden;
}

/** The side of the samples with the least light along it, in stops. */
export function darkestSide({ x, y, ev }: SetSamples): 'left' | 'right' | 'top' | 'bottom' {
  const [left, right, top, bottom] = [Math.min(...x), Math.max(...x), Math.min(...y), Math.max(...y)];
  const along = (isThere: (i: number) => boolean) => {
    const there = ev.filter((_, i) => isThere(i));
    return there.reduce((sum, value) => sum + value, 0) / there.length;
  };
  const near = (a: number, b: number) => Math.abs(a - b) < 1e-6;
  const sides = [
    ['left', along((i) => near(x[i]!, left))],
    ['right', along((i) => near(x[i]!, right))],
    ['top', along((i) => near(y[i]!, top))],
    ['bottom', along((i) => near(y[i]!, bottom))],
  ] as const;
  return sides.reduce((darkest, side) => (side[1] < darkest[1] ? side : darkest))[0];
}
