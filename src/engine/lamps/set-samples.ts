import { xyzToUvPrime } from '../colour/chromaticity.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { transformVector3 } from '../numeric/matrix3.ts';
import { mean } from '../numeric/mean.ts';
import { quantile } from '../numeric/quantile.ts';
import type { Exposure, Measurement } from '../reading.ts';

/** The measured light that a set is fitted to: means of blocks of cells, row by row, gaps left out. */
export interface SetSamples {
  /** Frame widths right of and below the middle of the frame. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Stops below the brightest block. */
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
const LONG_SIDE = 12;

/** Blocks with fewer of their cells measured say too little. */
const LEAST_MEASURED = 0.4;

/** A cell with more of its pixels clipped than this shows no light to be fitted. */
const MOST_CLIPPED = 0.02;

/** The shape of the whole frame, and how it was exposed. */
export type SampledFrame = Pick<Measurement['frame'], 'widthPx' | 'heightPx' | 'exposure'>;

/** A cell so far from smooth light, in robust standard deviations of all cells and in stops, is a fold or a speck. */
const MOST_ODD = 4;
const SIGMA_OF_MAD = 1.4826; // of a normal distribution
const LEAST_ODD_EV = 0.008;

/**
 * Pools the cells of a grid. `stops`: luminance of each cell, as base-2 logarithms against white, NaN where nothing was
 * measured, without what is no part of a set's light; `smoothStops`: the same of the smooth light through them. What
 * departs from that is left out.
 */
export function setSamples(
  grid: Pick<CellGrid, 'columns' | 'rows' | 'region' | 'highlightShare' | 'light' | 'toXyz'>,
  stops: Float64Array,
  smoothStops: Float64Array,
  { widthPx, heightPx, exposure }: SampledFrame,
): SetSamples {
  const { columns, rows, region, light } = grid;
  const long = Math.max(columns, rows);
  const across = Math.max(1, Math.round((LONG_SIDE * columns) / long));
  const down = Math.max(1, Math.round((LONG_SIDE * rows) / long));
  const aspect = heightPx / widthPx;
  const [width, height] = [region.right - region.left, region.bottom - region.top];
  const odd = stops.map((value, cell) => Math.abs(value - smoothStops[cell]!));
  const mostOdd = Math.max(LEAST_ODD_EV, MOST_ODD * SIGMA_OF_MAD * quantile(odd, 0.5));
  const blocks = Array.from(
    { length: across * down },
    (): Block => ({ all: 0, x: [], y: [], ev: [], u: [], v: [] }),
  );
  for (let cell = 0; cell < columns * rows; cell++) {
    const column = cell % columns;
    const row = Math.floor(cell / columns);
    const block = blocks[Math.floor((row * down) / rows) * across + Math.floor((column * across) / columns)]!;
    block.all++;
    if (!(odd[cell]! < mostOdd) || grid.highlightShare[cell]! > MOST_CLIPPED) continue;
    const rgb = [light.red[cell]!, light.green[cell]!, light.blue[cell]!] as const;
    const { uPrime, vPrime } = xyzToUvPrime(...transformVector3(grid.toXyz, rgb));
    block.x.push(region.left + ((column + 0.5) / columns) * width - 0.5);
    block.y.push((region.top + ((row + 0.5) / rows) * height - 0.5) * aspect);
    block.ev.push(stops[cell]!);
    block.u.push(uPrime);
    block.v.push(vPrime);
  }
  const kept = blocks.filter(({ x, all }) => x.length >= LEAST_MEASURED * all && x.length > 0);
  const ev = Float64Array.from(kept, (block) => mean(block.ev));
  const levelEv = ev.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  return {
    x: Float64Array.from(kept, ({ x }) => mean(x)),
    y: Float64Array.from(kept, ({ y }) => mean(y)),
    ev: ev.map((value) => value - levelEv),
    uPrime: Float64Array.from(kept, ({ u }) => mean(u)),
    vPrime: Float64Array.from(kept, ({ v }) => mean(v)),
    aspect,
    levelEv,
    exposureEv: exposureEv(exposure),
  };
}

interface Block {
  all: number;
  readonly x: number[];
  readonly y: number[];
  readonly ev: number[];
  readonly u: number[];
  readonly v: number[];
}

/** log2(t S / N²), S the ISO speed over 100: light that a file shows goes by it. */
function exposureEv(exposure: Exposure | null): number | null {
  if (exposure === null) return null;
  const { seconds, fNumber, iso } = exposure;
  if (seconds === null || fNumber === null || iso === null) return null;
  return Math.log2((seconds * iso) / 100 / fNumber ** 2);
}
