import { quantile } from '../numeric/quantile.ts';
import {
  evaluateLegendreSurface,
  fitLegendreSurface,
  type LegendreSurface,
  type SurfaceSamples,
} from './legendre-surface.ts';
import { poolCells } from './pool-cells.ts';

/**
 * Total degrees to try, simplest first. The last is enough for a hot spot a fifth of the frame wide; a simpler one
 * serves better where an object is as wide as that, since it cannot follow it.
 */
const DEGREES = [2, 4, 6, 10];

/**
 * Rounds of least absolute deviations first, which an object cannot pull far from any start; then rounds of the
 * biweight, which forget it altogether.
 */
const ABSOLUTE_ROUNDS = 5;
const BIWEIGHT_ROUNDS = 3;

/** Below this many stops a scatter about the surface is taken as none, so that a perfect field has a scale too. */
const LEAST_SCALE_EV = 0.01;

/**
 * The smooth surface through a map in stops that most cells lie within `closeEv` of, the simplest of those that do
 * equally well. Objects in part of the map do not pull it along: least squares, reweighted. Cells that are NaN are
 * left out; `null` where hardly any is left.
 * Source of the biweight and its constant 4.685: Beaton & Tukey 1974, Technometrics 16 (from memory).
 */
export function robustSmoothLight(
  stops: Float64Array,
  columns: number,
  rows: number,
  closeEv: number,
): Float64Array | null {
  const coarse = poolCells(stops, columns, rows);
  let best: { surface: LegendreSurface; far: number } | null = null;
  for (const degree of DEGREES) {
    const surface = robustSurface(coarse, degree);
    if (surface === null) continue;
    const off = residuals(coarse, surface);
    const far = off.reduce((count, ev) => count + (ev > closeEv ? 1 : 0), 0);
    if (best === null || far < best.far) best = { surface, far };
    if (far === 0) break;
  }
  return best === null ? null : evaluateLegendreSurface(best.surface, columns, rows);
}

function robustSurface(samples: SurfaceSamples, degree: number): LegendreSurface | null {
  const weights = new Float64Array(samples.values.length).fill(1);
  const weighted = { ...samples, weights };
  let surface = fitLegendreSurface(weighted, degree);
  for (let round = 1; round <= ABSOLUTE_ROUNDS + BIWEIGHT_ROUNDS && surface !== null; round++) {
    const off = residuals(samples, surface);
    if (round <= ABSOLUTE_ROUNDS) absoluteWeights(off, weights);
    else biweights(off, weights);
    surface = fitLegendreSurface(weighted, degree) ?? surface;
  }
  return surface;
}

/** Distances from the surface; NaN where there is no value. */
function residuals({ columns, rows, values }: SurfaceSamples, surface: LegendreSurface): Float64Array {
  const fitted = evaluateLegendreSurface(surface, columns, rows);
  return values.map((value, k) => Math.abs(value - fitted[k]!));
}

/** Writes one over each residual. */
function absoluteWeights(off: Float64Array, weights: Float64Array): void {
  for (let k = 0; k < weights.length; k++) weights[k] = LEAST_SCALE_EV / Math.max(LEAST_SCALE_EV, off[k]!);
}

/** Writes Tukey's weights, the scale from the median residual. */
function biweights(off: Float64Array, weights: Float64Array): void {
  const reach = 4.685 * Math.max(LEAST_SCALE_EV, 1.4826 * quantile(off, 0.5));
  for (let k = 0; k < weights.length; k++) {
    const ratio = off[k]! / reach;
    weights[k] = ratio < 1 ? (1 - ratio * ratio) ** 2 : 0;
  }
}
