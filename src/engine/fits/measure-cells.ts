import { EngineError } from '../engine-error.ts';
import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { cast } from '../maps/cast.ts';
import { type CellErrors, cellErrors } from '../maps/cell-errors.ts';
import { regionGeometry } from '../maps/cell-plane.ts';
import { falloff } from '../maps/falloff.ts';
import { figureTaker } from '../maps/frame-figures.ts';
import { tint } from '../maps/tint.ts';
import { quantile } from '../numeric/quantile.ts';
import type { Gradient, Measurement, TintGradient } from '../reading.ts';
import { correctionGradient } from './correction-gradient.ts';
import { doubtPlusMinus } from './doubt-plus-minus.ts';
import { type FigurePlusMinus, figurePlusMinus } from './figure-plus-minus.ts';
import { flickerPlusMinus } from './flicker-plus-minus.ts';
import type { Ramp } from './ramp.ts';
import { tintGradient } from './tint-gradient.ts';
import { widened } from './widened.ts';

/** A share of clipped pixels in any cell above this hides some of the falloff; below it is hot pixels and glints. */
export const CLIPPED_CELL_SHARE = 0.02;

const orNull = (value: number) => (Number.isFinite(value) ? value : null);

function gradientOf(ramp: Ramp, explains: number, plusMinus: FigurePlusMinus): Gradient {
  const directed = ramp.ev >= plusMinus.gradientEv;
  return {
    angleDeg: directed ? ramp.angleDeg : null,
    ev: ramp.ev,
    mired: orNull(ramp.mired),
    duv: orNull(ramp.duv),
    from: ramp.from,
    to: ramp.to,
    explains,
    plusMinusDeg: directed ? orNull(plusMinus.gradientDeg) : null,
    plusMinusEv: plusMinus.gradientEv,
    plusMinusMired: orNull(plusMinus.gradientMired),
  };
}

function tintGradientOf(ramp: Ramp, plusMinus: FigurePlusMinus): TintGradient {
  return {
    angleDeg: ramp.deltaUv >= plusMinus.tintGradientDeltaUv ? ramp.angleDeg : null,
    deltaUv: ramp.deltaUv,
    mired: orNull(ramp.mired),
    duv: orNull(ramp.duv),
  };
}

/** Share of the variance of log2 luminance that its plane explains, 0 to 1. */
function explainedShare(
  level: Float64Array,
  measured: Float64Array,
  columns: number,
  plane: { right: number; down: number },
  cellWidth: number,
  cellHeight: number,
): number {
  let n = 0;
  let meanLevel = 0;
  let meanPlane = 0;
  const planeAt = (i: number) =>
    plane.right * (i % columns) * cellWidth + plane.down * Math.floor(i / columns) * cellHeight;
  for (let i = 0; i < level.length; i++) {
    if (Number.isNaN(measured[i]!)) continue;
    n++;
    meanLevel += level[i]!;
    meanPlane += planeAt(i);
  }
  meanLevel /= n;
  meanPlane /= n;
  let whole = 0;
  let left = 0;
  for (let i = 0; i < level.length; i++) {
    if (Number.isNaN(measured[i]!)) continue;
    const off = level[i]! - meanLevel;
    whole += off * off;
    left += (off - (planeAt(i) - meanPlane)) ** 2;
  }
  return whole > 0 ? Math.max(0, 1 - left / whole) : 0;
}

/** Noise of the luminance of one pixel and of one cell, in stops: the medians over the cells. */
function noiseEv(grid: CellGrid, smooth: CellChannels, errors: CellErrors): Measurement['noise'] {
  const [wr, wg, wb] = [grid.toXyz[3], grid.toXyz[4], grid.toXyz[5]];
  const [, m21, m22, m31, m32, m33] = errors.mixing;
  const pixel = new Float64Array(grid.pixels.length);
  const cell = new Float64Array(grid.pixels.length);
  for (let i = 0; i < pixel.length; i++) {
    const y = wr * smooth.red[i]! + wg * smooth.green[i]! + wb * smooth.blue[i]!;
    const { pixelSigma, sigma } = errors;
    pixel[i] =
      Math.hypot(wr * pixelSigma.red[i]!, wg * pixelSigma.green[i]!, wb * pixelSigma.blue[i]!) /
      (y * Math.LN2);
    const r = wr * sigma.red[i]!;
    const g = wg * sigma.green[i]!;
    const b = wb * sigma.blue[i]!;
    cell[i] = Math.hypot(r + g * m21 + b * m31, g * m22 + b * m32, b * m33) / (y * Math.LN2);
  }
  return { perPixelEv: quantile(pixel, 0.5), perCellEv: quantile(cell, 0.5) };
}

function meanShare(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** What makes the figures less sure than noise and rounding leave them. */
export interface MeasureDoubts {
  /** What a falloff between two levels of linear light may be wrong by, in stops: the half-width of a 95 % interval. */
  readonly doubtEv?: (bright: number, dark: number) => number;
  /** The grids that were averaged, where there were several: flicker between them goes into every ±. */
  readonly averagedFrom?: readonly CellGrid[];
}

export interface MeasuredCells {
  readonly measurement: Measurement;
  /** The same by noise, rounding and flicker alone: what is in doubt of the light itself does not make it less smooth. */
  readonly asRead: Measurement;
  /** The part of it that flicker between averaged frames makes; 0 where none shows. */
  readonly flickerEv: number;
  /** Luminance of the brightest smoothed cell; 1 is white. */
  readonly brightestLight: number;
}

/**
 * Everything that is measured on one grid of cells: the contract's figures, each with its ±.
 * `smooth` is the smooth linear light that stands in for the truth when errors are resampled.
 *
 * @throws {@link EngineError} `no-light` where no cell has any light.
 */
export function measureCells(
  grid: CellGrid,
  smooth: CellChannels,
  frame: Measurement['frame'],
  { doubtEv = () => 0, averagedFrom = [] }: MeasureDoubts = {},
): MeasuredCells {
  const { columns, rows, region, light, toXyz, highlightShare } = grid;
  const geometry = regionGeometry(region, columns, rows, grid.cellWidthPx, grid.cellHeightPx);
  const taker = figureTaker(columns, rows, geometry, toXyz, light.green);
  const errors = cellErrors(grid, smooth);
  const noise = figurePlusMinus(taker, smooth, errors, geometry, grid);
  const flicker = flickerPlusMinus(taker, averagedFrom, noise, geometry, toXyz);
  const repeat = widened(noise, flicker);
  const figures = taker.take(light);
  if (!(figures.brightestCell >= 0)) {
    throw new EngineError(
      'no-light',
      'No part of this frame holds any light. Shoot the lit, empty background.',
    );
  }
  const plusMinus = widened(repeat, doubtPlusMinus(taker, figures, geometry, toXyz, doubtEv));
  const ramp = correctionGradient(figures, geometry, toXyz);
  const cellWidth = (2 * geometry.halfWidth) / columns;
  const cellHeight = (2 * geometry.halfHeight) / rows;
  const measurement: Measurement = {
    schema: 'evenfield.reading/1',
    frame,
    region,
    grid: { columns, rows },
    falloff: falloff({
      columns,
      rows,
      region,
      cellWidth,
      cellHeight,
      luminance: taker.smoothed.luminance,
      brightestCell: figures.brightestCell,
      darkestCell: figures.darkestCell,
      isLowerBound: highlightShare.some((share) => share > CLIPPED_CELL_SHARE),
      plusMinusEv: plusMinus.spreadEv,
      cellPlusMinusEv: plusMinus.cellEv,
    }),
    tint: tint(
      taker.smoothed,
      { uPrime: figures.castUPrime, vPrime: figures.castVPrime },
      figures.tintSpread,
      plusMinus.tintDeltaUv,
    ),
    cast: cast([figures.meanX, figures.meanY, figures.meanZ], toXyz, {
      deltaUv: plusMinus.castDeltaUv,
      mired: plusMinus.castMired,
      duv: plusMinus.castDuv,
    }),
    gradient: gradientOf(
      ramp,
      explainedShare(taker.logLight.logLuminance, light.green, columns, figures.level, cellWidth, cellHeight),
      plusMinus,
    ),
    tintGradient: tintGradientOf(tintGradient(figures, geometry, toXyz), plusMinus),
    clipping: { highlightShare: meanShare(highlightShare), shadowShare: meanShare(grid.shadowShare) },
    noise: noiseEv(grid, smooth, errors),
  };
  return {
    measurement,
    asRead: {
      ...measurement,
      falloff: {
        ...measurement.falloff,
        plusMinusEv: repeat.spreadEv,
        cellPlusMinusEv: repeat.cellEv,
      },
      gradient: gradientOf(ramp, measurement.gradient.explains, repeat),
    },
    flickerEv: flicker.spreadEv ?? 0,
    brightestLight: taker.smoothed.luminance[figures.brightestCell]!,
  };
}
