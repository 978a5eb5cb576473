import { xyzToUvPrime } from '../colour/chromaticity.ts';
import { cctAndDuv } from '../colour/correlated-colour-temperature.ts';
import type { CellChannels } from '../grid/cell-grid.ts';
import { type Matrix3, transformVector3 } from '../numeric/matrix3.ts';
import { type Plane, planeFitter, type RegionGeometry } from './cell-plane.ts';
import { type ColourMap, colourOfCells, emptyColourMap, smoothChannels } from './colour-of-cells.ts';
import { cellSmoother } from './smooth-cells.ts';

/** The scalar figures of one frame that carry a ±, worked out the same way for a frame and for its resampled errors. */
export interface FrameFigures {
  spreadEv: number;
  brightestCell: number;
  darkestCell: number;
  tintSpread: number;
  meanX: number;
  meanY: number;
  meanZ: number;
  castUPrime: number;
  castVPrime: number;
  /** Distance of the mean from the white of the colour space. */
  castDeltaUv: number;
  castMired: number;
  castDuv: number;
  /** Planes through log2 luminance and through log2 light of each channel. */
  level: Plane;
  red: Plane;
  green: Plane;
  blue: Plane;
}

/** Reusable machinery for one set of cells: their gaps, geometry and colour space. */
export interface FigureTaker {
  /** Works out the figures of linear light at the cells. The maps stay readable until the next call. */
  take(light: CellChannels): FrameFigures;
  /** Of the smoothed cells, from the latest call. */
  readonly smoothed: ColourMap;
  /** Of the cells before smoothing, from the latest call. */
  readonly colour: ColourMap;
  /** log2 luminance before smoothing, from the latest call. */
  readonly level: Float64Array;
  /** Variance of a smoothed cell for unit variance of each cell; NaN where there is no figure. */
  readonly noiseGain: Float64Array;
}

function channels(count: number): CellChannels {
  return { red: new Float64Array(count), green: new Float64Array(count), blue: new Float64Array(count) };
}

/** `measured` is NaN at cells without measurement; they don't count in any figure. */
export function figureTaker(
  columns: number,
  rows: number,
  geometry: RegionGeometry,
  toXyz: Matrix3,
  measured: Float64Array,
): FigureTaker {
  const count = columns * rows;
  const smoother = cellSmoother(columns, rows, measured);
  const planeOf = planeFitter(columns, rows, geometry, measured);
  const smoothLight = channels(count);
  const logLight = channels(count);
  const smoothed = emptyColourMap(count);
  const colour = emptyColourMap(count);
  const level = new Float64Array(count);
  const white = xyzToUvPrime(...transformVector3(toXyz, [1, 1, 1]));

  function take(light: CellChannels): FrameFigures {
    colourOfCells(light, toXyz, colour);
    let red = 0;
    let green = 0;
    let blue = 0;
    let n = 0;
    for (let i = 0; i < count; i++) {
      if (Number.isNaN(measured[i]!)) continue;
      level[i] = Math.log2(colour.luminance[i]!);
      logLight.red[i] = Math.log2(light.red[i]!);
      logLight.green[i] = Math.log2(light.green[i]!);
      logLight.blue[i] = Math.log2(light.blue[i]!);
      red += light.red[i]!;
      green += light.green[i]!;
      blue += light.blue[i]!;
      n++;
    }
    red /= n;
    green /= n;
    blue /= n;
    const meanX = toXyz[0] * red + toXyz[1] * green + toXyz[2] * blue;
    const meanY = toXyz[3] * red + toXyz[4] * green + toXyz[5] * blue;
    const meanZ = toXyz[6] * red + toXyz[7] * green + toXyz[8] * blue;
    const { uPrime, vPrime } = xyzToUvPrime(meanX, meanY, meanZ);
    const warmth = cctAndDuv(uPrime, vPrime);
    smoothChannels(smoother, light, smoothLight);
    colourOfCells(smoothLight, toXyz, smoothed);
    let brightest = -1;
    let darkest = -1;
    let tintSquared = 0;
    for (let i = 0; i < count; i++) {
      const y = smoothed.luminance[i]!;
      if (Number.isNaN(y)) continue;
      if (brightest < 0 || y > smoothed.luminance[brightest]!) brightest = i;
      if (darkest < 0 || y < smoothed.luminance[darkest]!) darkest = i;
      const du = smoothed.uPrime[i]! - uPrime;
      const dv = smoothed.vPrime[i]! - vPrime;
      tintSquared = Math.max(tintSquared, du * du + dv * dv);
    }
    return {
      spreadEv:
        brightest < 0 ? Number.NaN : Math.log2(smoothed.luminance[brightest]! / smoothed.luminance[darkest]!),
      brightestCell: brightest,
      darkestCell: darkest,
      tintSpread: Math.sqrt(tintSquared),
      meanX,
      meanY,
      meanZ,
      castUPrime: uPrime,
      castVPrime: vPrime,
      castDeltaUv: Math.hypot(uPrime - white.uPrime, vPrime - white.vPrime),
      castMired: warmth?.mired ?? Number.NaN,
      castDuv: warmth?.duv ?? Number.NaN,
      level: planeOf(level),
      red: planeOf(logLight.red),
      green: planeOf(logLight.green),
      blue: planeOf(logLight.blue),
    };
  }
  return { take, smoothed, colour, level, noiseGain: smoother.noiseGain };
}
