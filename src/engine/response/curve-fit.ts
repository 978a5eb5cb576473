import { choleskyFactor } from '../numeric/cholesky-factor.ts';
import { cubicBSplineAt } from '../numeric/cubic-b-spline.ts';
import { baseStops, positionOfCode } from './code-axis.ts';
import { curvePrior, SPANS, SPLINES } from './curve-prior.ts';

/**
 * Sums of the weighted least squares for one curve and the frames' exposures, every place's own light taken out:
 * log2 light of a code, by sRGB plus a smooth difference, is the place's light plus the frame's stops plus what that
 * frame's exposure is off.
 * Source: P. E. Debevec, J. Malik, Proc. SIGGRAPH 97, 369 (the least squares); the smooth difference from a known
 * curve, its prior, the exposures as unknowns and the noise held to be that of the codes are own choices.
 */
export interface CurveSums {
  /** Splines, then one for each frame. */
  readonly size: number;
  readonly matrix: Float64Array;
  readonly vector: Float64Array;
  readonly square: number;
}

/** One curve as found, with the parameters' factor for drawing. */
export interface CurveSolution {
  readonly parameters: Float64Array;
  /** Lower triangle of the inverse covariance's factor. */
  readonly factor: Float64Array;
  readonly logEvidence: number;
}

/** What is gone by of a sighting: linearised about a code that is held to be without its noise. */
export interface Sight {
  readonly frame: number;
  /** Where the curve is looked up. */
  readonly code: number;
  /** Stops that the sighting itself lies above that code. */
  readonly above: number;
  /** Stops to a code there. */
  readonly slope: number;
  readonly weight: number;
}

/** Codes near the ends, within which trust falls. */
const END_CODES = 12;
const LEAST_TRUST = 0.05;
const LAST_CODE = 255;

/** Weight of a sighting: the inverse of its variance in stops, less near the ends. */
export function weightOf(code: number, variance: number, slope: number): number {
  const inside = Math.max(LEAST_TRUST, Math.min(1, code / END_CODES, (LAST_CODE - code) / END_CODES));
  return (inside * inside) / (variance * slope * slope);
}

export function curveSums(places: readonly (readonly Sight[])[], stops: readonly number[]): CurveSums {
  const size = SPLINES + stops.length;
  const matrix = new Float64Array(size * size);
  const vector = new Float64Array(size);
  const values = new Float64Array(4);
  const mean = new Float64Array(size);
  const touched: number[] = [];
  let square = 0;
  for (const sights of places) {
    let total = 0;
    let meanTarget = 0;
    for (const at of touched) mean[at] = 0;
    touched.length = 0;
    const addRow = (weight: number, target: number, columns: Int32Array, row: Float64Array) => {
      for (let i = 0; i < 5; i++) {
        const weighted = weight * row[i]!;
        mean[columns[i]!]! += weighted;
        touched.push(columns[i]!);
        vector[columns[i]!]! += weighted * target;
        for (let j = 0; j < 5; j++) matrix[columns[i]! * size + columns[j]!]! += weighted * row[j]!;
      }
      total += weight;
      meanTarget += weight * target;
      square += weight * target * target;
    };
    for (const { code, above, frame, weight } of sights) {
      if (weight === 0) continue;
      const first = cubicBSplineAt(positionOfCode(code), SPANS, values);
      const columns = Int32Array.of(first, first + 1, first + 2, first + 3, SPLINES + frame);
      const row = Float64Array.of(values[0]!, values[1]!, values[2]!, values[3]!, -1);
      // what is left to explain: the stops that the frame says, less those that sRGB's curve shows
      addRow(weight, stops[frame]! - baseStops(code) - above, columns, row);
    }
    if (!(total > 0)) continue;
    const columns = [...new Set(touched)];
    for (const i of columns) {
      vector[i]! -= (mean[i]! * meanTarget) / total;
      for (const j of columns) matrix[i * size + j]! -= (mean[i]! * mean[j]!) / total;
    }
    square -= (meanTarget * meanTarget) / total;
  }
  return { size, matrix, vector, square };
}

/**
 * Solves for the curve under a smoothness and a scatter of the exposures.
 *
 * @param roughness - standard deviation of the second differences, see {@link curvePrior}.
 * @param exposureEv - standard deviation of what a frame's exposure is off.
 */
export function solveCurve(sums: CurveSums, roughness: number, exposureEv: number): CurveSolution {
  const { size, matrix, vector, square } = sums;
  const prior = curvePrior(roughness);
  const inverse = matrix.slice();
  for (let i = 0; i < SPLINES; i++)
    for (let j = 0; j < SPLINES; j++) inverse[i * size + j]! += prior.matrix[i * SPLINES + j]!;
  for (let i = SPLINES; i < size; i++) inverse[i * size + i]! += 1 / exposureEv ** 2;
  const factor = choleskyFactor(inverse, size);
  const parameters = backward(factor, forward(factor, vector));
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) logDeterminant += 2 * Math.log(factor[i * size + i]!);
  let explained = 0;
  for (let i = 0; i < size; i++) explained += parameters[i]! * vector[i]!;
  const frames = size - SPLINES;
  const logEvidence =
    (explained - square - logDeterminant + prior.logDeterminant) / 2 - frames * Math.log(exposureEv);
  return { parameters, factor, logEvidence };
}

/** Stops over sRGB's at every code, of splines' heights. */
export function differenceAt(parameters: Float64Array, code: number): number {
  const values = new Float64Array(4);
  const first = cubicBSplineAt(positionOfCode(code), SPANS, values);
  let sum = 0;
  for (let i = 0; i < 4; i++) sum += values[i]! * parameters[first + i]!;
  return sum;
}

function forward(factor: Float64Array, b: Float64Array): Float64Array {
  const size = b.length;
  const x = b.slice();
  for (let i = 0; i < size; i++) {
    let sum = x[i]!;
    for (let j = 0; j < i; j++) sum -= factor[i * size + j]! * x[j]!;
    x[i] = sum / factor[i * size + i]!;
  }
  return x;
}

/** Solves Lᵀ x = b: of standard normal numbers it makes draws. */
export function backward(factor: Float64Array, b: Float64Array): Float64Array {
  const size = b.length;
  const x = b.slice();
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i]!;
    for (let j = i + 1; j < size; j++) sum -= factor[j * size + i]! * x[j]!;
    x[i] = sum / factor[i * size + i]!;
  }
  return x;
}
