import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { quantileOfSorted } from '../numeric/quantile.ts';
import { type ChannelRounding, channelRounding } from './rounding-error.ts';

/** How far each cell's mean light may be off, per channel. */
export interface CellErrors {
  /** Standard deviation of independent error of a cell's mean, linear light. */
  readonly sigma: CellChannels;
  /** Lower triangle, row by row, of the Cholesky factor of the channels' correlation: 11, 21, 22, 31, 32, 33. */
  readonly mixing: readonly [number, number, number, number, number, number];
  /** What rounding to codes leaves, which neighbouring cells share. */
  readonly rounding: {
    readonly red: ChannelRounding;
    readonly green: ChannelRounding;
    readonly blue: ChannelRounding;
  };
  /** Whether one rounding, of a phase common to the channels, comes on top (a JPEG's luma). */
  readonly roundedTogether: boolean;
  /** Whether the channels are one and the same, so that they share every rounding. */
  readonly grey: boolean;
  /** Pixel scatter without the share of the gradient inside cells, linear light. */
  readonly pixelSigma: CellChannels;
}

/** Median of |z| of a standard normal. */
const MEDIAN_ABS_NORMAL = 0.6744898;

/**
 * The second difference both ways over 3 × 3 cells, which any quadratic light leaves at 0 (J. Immerkær 1996, Comput.
 * Vis. Image Underst. 64(2), 300), over its standard deviation for independent errors of the given sizes. NaN beside
 * gaps and along the frame's edge.
 */
function roughness(light: Float64Array, sigma: Float64Array, columns: number, rows: number): Float64Array {
  const result = new Float64Array(light.length).fill(Number.NaN);
  const kernel = [1, -2, 1, -2, 4, -2, 1, -2, 1];
  for (let row = 1; row < rows - 1; row++) {
    for (let column = 1; column < columns - 1; column++) {
      let difference = 0;
      let variance = 0;
      for (let k = 0; k < 9; k++) {
        const i = (row + Math.floor(k / 3) - 1) * columns + column + (k % 3) - 1;
        difference += kernel[k]! * light[i]!;
        variance += (kernel[k]! * sigma[i]!) ** 2;
      }
      if (variance > 0) result[row * columns + column] = difference / Math.sqrt(variance);
    }
  }
  return result;
}

function medianAbsolute(values: Float64Array): number {
  const finite = values.filter((value) => !Number.isNaN(value)).map(Math.abs);
  return quantileOfSorted(finite.sort(), 0.5);
}

/** Correlation of two roughnesses, insensitive to outliers: each value is held within three deviations. */
function robustCorrelation(a: Float64Array, aSigma: number, b: Float64Array, bSigma: number): number {
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < a.length; i++) {
    const x = Math.max(-3, Math.min(3, a[i]! / aSigma));
    const y = Math.max(-3, Math.min(3, b[i]! / bSigma));
    if (Number.isNaN(x) || Number.isNaN(y)) continue;
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  const correlation = ab / Math.sqrt(aa * bb);
  return Number.isFinite(correlation) ? Math.max(-0.999, Math.min(0.999, correlation)) : 0;
}

/** Pixel scatter less what a slope through the cell makes of it: slope² / 12 each way, in units of a cell. */
function scatterWithoutSlope(
  scatter: Float64Array,
  smooth: Float64Array,
  columns: number,
  rows: number,
): Float64Array {
  return scatter.map((value, i) => {
    const column = i % columns;
    const row = Math.floor(i / columns);
    const left = column > 0 ? i - 1 : i;
    const right = column < columns - 1 ? i + 1 : i;
    const up = row > 0 ? i - columns : i;
    const down = row < rows - 1 ? i + columns : i;
    const across = right > left ? (smooth[right]! - smooth[left]!) / (right - left) : 0;
    const along = down > up ? (smooth[down]! - smooth[up]!) / ((down - up) / columns) : 0;
    return Math.sqrt(Math.max(0, value * value - (across * across + along * along) / 12));
  });
}

/**
 * Learns the errors of the cells' means from the frame itself. `smooth` is the smooth light that stands in for the
 * truth. Scatter of single pixels gives each cell's error were its pixels independent; the roughness from cell to cell
 * tells by how much they are not (a JPEG's blocks, a demosaic), and how the channels' errors go together.
 */
export function cellErrors(grid: CellGrid, smooth: CellChannels): CellErrors {
  const { columns, rows, pixels, light, scatter, lightAtCode } = grid;
  const names = ['red', 'green', 'blue'] as const;
  const pixelSigma = {} as Record<(typeof names)[number], Float64Array>;
  const sigma = {} as Record<(typeof names)[number], Float64Array>;
  const rough: Float64Array[] = [];
  const roughSigma: number[] = [];
  for (const name of names) {
    pixelSigma[name] = scatterWithoutSlope(scatter[name], smooth[name], columns, rows);
    const alone = pixelSigma[name].map((value, i) => value / Math.sqrt(pixels[i]!));
    const values = roughness(light[name], alone, columns, rows);
    const measured = medianAbsolute(values) / MEDIAN_ABS_NORMAL;
    const factor = Number.isFinite(measured) ? Math.max(1, measured) : 1;
    sigma[name] = alone.map((value) => value * factor);
    rough.push(values);
    roughSigma.push(Number.isFinite(measured) && measured > 0 ? measured : 1);
  }
  const [r, g, b] = rough as [Float64Array, Float64Array, Float64Array];
  const [rs, gs, bs] = roughSigma as [number, number, number];
  const rg = robustCorrelation(r, rs, g, gs);
  const rb = robustCorrelation(r, rs, b, bs);
  const gb = robustCorrelation(g, gs, b, bs);
  const l22 = Math.sqrt(1 - rg * rg);
  const l32 = (gb - rg * rb) / l22;
  return {
    sigma,
    mixing: [1, rg, l22, rb, l32, Math.sqrt(Math.max(0, 1 - rb * rb - l32 * l32))],
    rounding: {
      red: channelRounding(smooth.red, pixelSigma.red, lightAtCode.red, columns, rows),
      green: channelRounding(smooth.green, pixelSigma.green, lightAtCode.green, columns, rows),
      blue: channelRounding(smooth.blue, pixelSigma.blue, lightAtCode.blue, columns, rows),
    },
    roundedTogether: grid.roundedTogether,
    grey: light.red.every(
      (value, i) => Number.isNaN(value) || (value === light.green[i] && value === light.blue[i]),
    ),
    pixelSigma,
  };
}
