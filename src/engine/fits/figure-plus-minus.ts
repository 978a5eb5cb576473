import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import type { CellErrors } from '../maps/cell-errors.ts';
import type { RegionGeometry } from '../maps/cell-plane.ts';
import { copyLogLight, type FigureTaker } from '../maps/frame-figures.ts';
import { addRoundingErrors } from '../maps/rounding-error.ts';
import { quickNormals } from '../numeric/quick-normals.ts';
import { type SeededRandom, seededRandom } from '../numeric/seeded-random.ts';
import { correctionGradient } from './correction-gradient.ts';
import { tintGradient } from './tint-gradient.ts';

/** Half-widths of 95 % intervals. */
export interface FigurePlusMinus {
  readonly spreadEv: number;
  readonly cellEv: number;
  readonly tintDeltaUv: number;
  readonly castDeltaUv: number;
  readonly castMired: number;
  readonly castDuv: number;
  readonly gradientDeg: number;
  readonly gradientEv: number;
  readonly gradientMired: number;
  readonly tintGradientDeltaUv: number;
}

/** One less than a multiple of 20, so that the 95 % rank is a whole number. */
const DRAWS = 79;
const RANK = 0.95 * (DRAWS + 1) - 1;

/** Adds one draw of every cell's error to `truth`, into `result`. */
function drawErrors(
  truth: CellChannels,
  errors: CellErrors,
  fillNormals: (into: Float64Array) => void,
  random: SeededRandom,
  normals: Float64Array,
  result: CellChannels,
): void {
  const count = truth.red.length;
  const { sigma, mixing, rounding } = errors;
  const [, m21, m22, m31, m32, m33] = mixing;
  fillNormals(normals);
  for (let i = 0; i < count; i++) {
    const a = normals[3 * i]!;
    const b = normals[3 * i + 1]!;
    const c = normals[3 * i + 2]!;
    result.red[i] = truth.red[i]! + sigma.red[i]! * a;
    result.green[i] = truth.green[i]! + sigma.green[i]! * (m21 * a + m22 * b);
    result.blue[i] = truth.blue[i]! + sigma.blue[i]! * (m31 * a + m32 * b + m33 * c);
  }
  addRoundingErrors(rounding, random.uniform, result);
}

/** An error can take no cell below black; where it would, its light had no logarithm. */
function holdAboveBlack(drawn: CellChannels, least: LeastLight): void {
  for (const name of ['red', 'green', 'blue'] as const) {
    const light = drawn[name];
    const lowest = least[name];
    for (let i = 0; i < light.length; i++) if (light[i]! < lowest) light[i] = lowest;
  }
}

type LeastLight = Record<keyof CellChannels, number>;

/** What cells are held at where a frame is black, half the first code. */
function leastLight({ lightAtCode }: Pick<CellGrid, 'lightAtCode'>): LeastLight {
  const half = (light: Float64Array) => (light.find((value) => value > 0) ?? 0) / 2;
  return { red: half(lightAtCode.red), green: half(lightAtCode.green), blue: half(lightAtCode.blue) };
}

/**
 * The ± of a frame's figures by the parametric bootstrap (B. Efron and R. Tibshirani, An Introduction to the Bootstrap,
 * 1993, chapter 6): a smooth light stands in for the truth, errors as the frame shows them are drawn onto it again and
 * again, every figure is worked out anew by the same code, and the ± is what 95 % of its errors stay below. So the
 * brightest of thousands of noisy cells, which is always too bright, is allowed for as it should be.
 *
 * `truth` is linear light, NaN at cells without measurement.
 */
export function figurePlusMinus(
  taker: FigureTaker,
  truth: CellChannels,
  errors: CellErrors,
  geometry: RegionGeometry,
  { toXyz, lightAtCode }: Pick<CellGrid, 'toXyz' | 'lightAtCode'>,
): FigurePlusMinus {
  const least = leastLight({ lightAtCode });
  const random = seededRandom(seedOf(truth.green));
  const fillNormals = quickNormals(random);
  const count = truth.red.length;
  const normals = new Float64Array(3 * count);
  const trueFigures = taker.take(truth);
  const trueLight = copyLogLight(taker.logLight);
  const trueMap = taker.smoothed.luminance.slice();
  const trueRamp = correctionGradient(trueFigures, geometry, toXyz);
  const trueTintRamp = tintGradient(trueFigures, geometry, toXyz);
  const drawn = {
    red: new Float64Array(count),
    green: new Float64Array(count),
    blue: new Float64Array(count),
  };
  const spread: number[] = [];
  const tint: number[] = [];
  const castUv: number[] = [];
  const castMired: number[] = [];
  const castDuv: number[] = [];
  const degrees: number[] = [];
  const ev: number[] = [];
  const mired: number[] = [];
  const tintRamp: number[] = [];
  let squares = 0;
  let cells = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    drawErrors(truth, errors, fillNormals, random, normals, drawn);
    holdAboveBlack(drawn, least);
    const figures = taker.take(drawn, trueLight);
    spread.push(figures.spreadEv - trueFigures.spreadEv);
    tint.push(figures.tintSpread - trueFigures.tintSpread);
    castUv.push(figures.castDeltaUv - trueFigures.castDeltaUv);
    castMired.push(figures.castMired - trueFigures.castMired);
    castDuv.push(figures.castDuv - trueFigures.castDuv);
    const ramp = correctionGradient(figures, geometry, toXyz);
    degrees.push(((ramp.angleDeg - trueRamp.angleDeg + 540) % 360) - 180);
    ev.push(ramp.ev - trueRamp.ev);
    mired.push(ramp.mired - trueRamp.mired);
    tintRamp.push(tintGradient(figures, geometry, toXyz).deltaUv - trueTintRamp.deltaUv);
    const { luminance } = taker.smoothed;
    const level = trueMap[trueFigures.brightestCell]! / luminance[figures.brightestCell]!;
    for (let i = 0; i < count; i++) {
      const off = Math.LOG2E * ((luminance[i]! / trueMap[i]!) * level - 1); // of the log, to first order
      if (Number.isNaN(off)) continue;
      squares += off * off;
      cells++;
    }
  }
  return {
    spreadEv: halfWidth95(spread),
    cellEv: 1.959964 * Math.sqrt(squares / cells),
    tintDeltaUv: halfWidth95(tint),
    castDeltaUv: halfWidth95(castUv),
    castMired: halfWidth95(castMired),
    castDuv: halfWidth95(castDuv),
    gradientDeg: halfWidth95(degrees),
    gradientEv: halfWidth95(ev),
    gradientMired: halfWidth95(mired),
    tintGradientDeltaUv: halfWidth95(tintRamp),
  };
}

/** One light always gives one seed, so a file always reads alike; another file's draws are others. */
function seedOf(values: Float64Array): number {
  const words = new Uint32Array(values.slice().buffer);
  return words.reduce((hash, word) => Math.imul(hash ^ word, 16_777_619), 0x811c9dc5); // FNV-1a over words
}

/** The half-width that 95 % of the errors stay within; NaN where any of them is. */
function halfWidth95(errors: readonly number[]): number {
  const sizes = Float64Array.from(errors, Math.abs).sort(); // NaN sorts last
  return Number.isNaN(sizes[sizes.length - 1]!) ? Number.NaN : sizes[RANK]!;
}
