import { xyzToUvPrime } from '../colour/chromaticity.ts';
import { cctAndDuv } from '../colour/correlated-colour-temperature.ts';
import type { CellChannels } from '../grid/cell-grid.ts';
import { type Matrix3, transformVector3 } from '../numeric/matrix3.ts';
import { type Plane, planeFitter, type RegionGeometry } from './cell-plane.ts';
import {
  type ColourMap,
  colourOfCells,
  emptyColourMap,
  luminanceOfCells,
  smoothChannels,
} from './colour-of-cells.ts';
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
  /**
   * Works out the figures of linear light at the cells. The maps stay readable until the next call. `near`, from an
   * earlier light that differs by parts of a per cent, makes it quicker.
   */
  take(light: CellChannels, near?: LogLight): FrameFigures;
  /** Of the smoothed cells, from the latest call. */
  readonly smoothed: ColourMap;
  /** Light, luminance and their logarithms before smoothing, from the latest call; copied by {@link copyLogLight}. */
  readonly logLight: LogLight;
}

/** Linear light and luminance of cells, and log2 of each. */
export interface LogLight {
  readonly light: CellChannels;
  readonly luminance: Float64Array;
  readonly logLight: CellChannels;
  readonly logLuminance: Float64Array;
}

export function copyLogLight({ light, luminance, logLight, logLuminance }: LogLight): LogLight {
  const copy = ({ red, green, blue }: CellChannels) => ({
    red: red.slice(),
    green: green.slice(),
    blue: blue.slice(),
  });
  return {
    light: copy(light),
    luminance: luminance.slice(),
    logLight: copy(logLight),
    logLuminance: logLuminance.slice(),
  };
}

/** log2 of a value from that of one within 2 % of it: four terms of the series err by less than 1e-9. */
function logNear(value: number, near: number, logOfNear: number): number {
  const d = value / near - 1;
  if (!(Math.abs(d) < 0.02)) return Math.log2(value);
  return logOfNear + Math.LOG2E * d * (1 - d * (1 / 2 - d * (1 / 3 - d / 4)));
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
  const smoothed = emptyColourMap(count);
  const taken = {
    light: channels(count),
    luminance: new Float64Array(count),
    logLight: channels(count),
    logLuminance: new Float64Array(count),
  };
  const measuredCount = measured.reduce((n, value) => n + (Number.isNaN(value) ? 0 : 1), 0);
  const white = xyzToUvPrime(...transformVector3(toXyz, [1, 1, 1]));

  /** Logarithms of one channel at the cells that count; returns the sum of their light. */
  function logOf(
    light: Float64Array,
    near: Float64Array | null,
    nearLog: Float64Array | null,
    log: Float64Array,
  ) {
    let sum = 0;
    for (let i = 0; i < count; i++) {
      if (Number.isNaN(measured[i]!)) continue;
      log[i] = near && nearLog ? logNear(light[i]!, near[i]!, nearLog[i]!) : Math.log2(light[i]!);
      sum += light[i]!;
    }
    return sum;
  }

  function take(light: CellChannels, near?: LogLight): FrameFigures {
    const { luminance, logLight, logLuminance } = taken;
    luminanceOfCells(light, toXyz, luminance);
    taken.light = light;
    logOf(luminance, near?.luminance ?? null, near?.logLuminance ?? null, logLuminance);
    const channelMean = (name: keyof CellChannels) =>
      logOf(light[name], near?.light[name] ?? null, near?.logLight[name] ?? null, logLight[name]) /
      measuredCount;
    const red = channelMean('red');
    const green = channelMean('green');
    const blue = channelMean('blue');
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
      level: planeOf(logLuminance),
      red: planeOf(logLight.red),
      green: planeOf(logLight.green),
      blue: planeOf(logLight.blue),
    };
  }
  return { take, smoothed, logLight: taken };
}
