import type { CellGrid } from '../grid/cell-grid.ts';
import type { RegionGeometry } from '../maps/cell-plane.ts';
import type { FigureTaker } from '../maps/frame-figures.ts';
import type { Matrix3 } from '../numeric/matrix3.ts';
import { mean } from '../numeric/mean.ts';
import { surelyOverShare, tFactor95 } from '../numeric/small-sample.ts';
import { correctionGradient } from './correction-gradient.ts';
import type { FigurePlusMinus } from './figure-plus-minus.ts';

type Flickering = Exclude<keyof FigurePlusMinus, 'cellEv' | 'tintGradientDeltaUv'>;

const NORMAL_95 = 1.959964;
/** Smoothed cells that know nothing of each other, at the least: a grid's thousands hang together over 5 × 5. */
const CELLS_FREEDOM = 20;

/**
 * What light that changes from frame to frame adds to the ± of figures of their average: each frame's own figure is
 * worked out, and where these scatter by more than noise would have it, Student's interval of their mean says how far
 * the average may be from that of many more frames. Nothing for fewer than two frames. `noise` is the ± of the average by
 * noise alone.
 */
export function flickerPlusMinus(
  taker: FigureTaker,
  frames: readonly CellGrid[],
  noise: FigurePlusMinus,
  geometry: RegionGeometry,
  toXyz: Matrix3,
): Partial<FigurePlusMinus> {
  if (frames.length < 2) return {};
  let reference = -1;
  const maps: Float64Array[] = [];
  const each = frames.map(({ light }) => {
    const figures = taker.take(light);
    const { luminance } = taker.smoothed;
    if (reference < 0) reference = figures.brightestCell;
    maps.push(luminance.map((value) => Math.log2(value / luminance[reference]!)));
    const ramp = correctionGradient(figures, geometry, toXyz);
    return {
      spreadEv: figures.spreadEv,
      tintDeltaUv: figures.tintSpread,
      castDeltaUv: figures.castDeltaUv,
      castMired: figures.castMired,
      castDuv: figures.castDuv,
      gradientDeg: ramp.angleDeg,
      gradientEv: ramp.ev,
      gradientMired: ramp.mired,
    } satisfies Record<Flickering, number>;
  });
  const first = each[0]!;
  /** By noise alone, of one frame. */
  const deviationOf = (figure: keyof FigurePlusMinus) =>
    (noise[figure] / NORMAL_95) * Math.sqrt(frames.length);
  const more: Partial<Record<keyof FigurePlusMinus, number>> = {};
  for (const figure of Object.keys(first) as Flickering[]) {
    const values = each.map((figures) =>
      // angles meet again after a turn
      figure === 'gradientDeg' ? ((figures[figure] - first[figure] + 540) % 360) - 180 : figures[figure],
    );
    more[figure] = plusMinusOfMean(varianceOf(values), deviationOf(figure), frames.length);
  }
  const cellVariance = mean(
    Array.from(maps[0]!, (_, i) => varianceOf(maps.map((map) => map[i]!))).filter(Number.isFinite),
  );
  // the cells of a frame flicker together, but their noise is told from all of them
  const isSure = CELLS_FREEDOM * (frames.length - 1);
  return { ...more, cellEv: plusMinusOfMean(cellVariance, deviationOf('cellEv'), frames.length, isSure) };
}

/**
 * Half-width of the 95 % interval of the mean of `count` values with this variance, by the part of it that noise of this
 * deviation does not explain; 0 where noise may explain it all.
 */
function plusMinusOfMean(
  variance: number,
  noiseDeviation: number,
  count: number,
  varianceFreedom = count - 1,
): number {
  const noiseVariance = noiseDeviation ** 2;
  if (!(variance > noiseVariance * surelyOverShare(varianceFreedom))) return 0; // of NaN, too
  return tFactor95(count - 1) * Math.sqrt((variance - noiseVariance) / count);
}

function varianceOf(values: readonly number[]): number {
  const centre = mean(values);
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1);
}
