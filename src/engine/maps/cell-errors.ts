import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { scatterWithoutSlope } from '../grid/scatter-without-slope.ts';
import { quantileOfSorted } from '../numeric/quantile.ts';
import { type RoundingErrors, roundingErrors } from './rounding-error.ts';

/** How far each cell's mean light may be off, per channel. */
export interface CellErrors {
  /** Standard deviation of independent error of a cell's mean, linear light. */
  readonly sigma: CellChannels;
  /** Lower triangle, row by row, of the Cholesky factor of the channels' correlation: 11, 21, 22, 31, 32, 33. */
  readonly mixing: readonly [number, number, number, number, number, number];
  /** What rounding to codes leaves, which neighbouring cells share. */
  readonly rounding: RoundingErrors;
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

/**
 * Learns the errors of the cells' means from the frame itself. `smooth` is the smooth light that stands in for the
 * truth. Scatter of single pixels gives each cell's error were its pixels independent; the roughness from cell to cell
 * tells by how much they are not (a JPEG's blocks, a demosaic), and how the channels' errors go together.
 */
export function cellErrors(grid: CellGrid, smooth: CellChannels): CellErrors {
  const { columns, rows, pixels, light } = grid;
  const pixelSigma = scatterWithoutSlope(grid, smooth);
  const channel = (name: keyof CellChannels) => {
    const alone = pixelSigma[name].map((value, i) => value / Math.sqrt(pixels[i]!));
    const rough = roughness(light[name], alone, columns, rows);
    const measured = medianAbsolute(rough) / MEDIAN_ABS_NORMAL;
    const told = Number.isFinite(measured) && measured > 0;
    return {
      rough,
      roughSigma: told ? measured : 1,
      sigma: alone.map((value) => value * (told ? Math.max(1, measured) : 1)),
    };
  };
  const [red, green, blue] = [channel('red'), channel('green'), channel('blue')];
  const rg = robustCorrelation(red.rough, red.roughSigma, green.rough, green.roughSigma);
  const rb = robustCorrelation(red.rough, red.roughSigma, blue.rough, blue.roughSigma);
  const gb = robustCorrelation(green.rough, green.roughSigma, blue.rough, blue.roughSigma);
  const l22 = Math.sqrt(1 - rg * rg);
  const l32 = (gb - rg * rb) / l22;
  return {
    sigma: { red: red.sigma, green: green.sigma, blue: blue.sigma },
    mixing: [1, rg, l22, rb, l32, Math.sqrt(Math.max(0, 1 - rb * rb - l32 * l32))],
    rounding: roundingErrors(grid, smooth, pixelSigma),
    pixelSigma,
  };
}
