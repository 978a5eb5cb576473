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

/**
 * An object a quarter of the frame and more in size pulls a surface through all cells along before any is forgotten.
 * A background mostly shows round its object, or at one side of it: surfaces also start from the rim of this share
 * of each side alone, and from each half.
 */
const RIM_SHARE = 1 / 6;

/**
 * A richer surface is taken only where it leaves at most this share of the far cells of a simpler one: it follows
 * part of a large object, and then rings where the light is smooth. Own allowance.
 */
const RICHER_LEAVES = 2 / 3;

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
  let toBeat = Number.POSITIVE_INFINITY;
  for (const degree of DEGREES) {
    for (const part of STARTS) {
      const surface = robustSurface(coarse, degree, part);
      if (surface === null) continue;
      const off = residuals(coarse, surface);
      const far = off.reduce((count, ev) => count + (ev > closeEv ? 1 : 0), 0);
      if (far < toBeat) {
        best = { surface, far };
        toBeat = far;
      }
      if (far === 0) return evaluateLegendreSurface(surface, columns, rows);
    }
    if (best !== null) toBeat = best.far * RICHER_LEAVES;
  }
  return best === null ? null : evaluateLegendreSurface(best.surface, columns, rows);
}

/** Whether a surface starts from the cell at a place across the region, 0 to 1 each way; `null` for all cells. */
type StartingPart = ((x: number, y: number) => boolean) | null;

const STARTS: readonly StartingPart[] = [
  null,
  (x, y) => Math.min(x, y, 1 - x, 1 - y) < RIM_SHARE,
  (x) => x < 0.5,
  (x) => x > 0.5,
  (_, y) => y < 0.5,
  (_, y) => y > 0.5,
];

function robustSurface(samples: SurfaceSamples, degree: number, part: StartingPart): LegendreSurface | null {
  const { columns, rows } = samples;
  const start = Float64Array.from(samples.values, (_, cell) => {
    const x = ((cell % columns) + 0.5) / columns;
    return part === null || part(x, (Math.floor(cell / columns) + 0.5) / rows) ? 1 : 0;
  });
  const weights = start.slice();
  const weighted = { ...samples, weights };
  let surface = fitLegendreSurface(weighted, degree);
  for (let round = 1; round <= ABSOLUTE_ROUNDS + BIWEIGHT_ROUNDS && surface !== null; round++) {
    const off = residuals(samples, surface);
    if (round <= ABSOLUTE_ROUNDS) absoluteWeights(off, start, weights);
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

/** Writes one over each residual where the surface starts from, 0 elsewhere. */
function absoluteWeights(off: Float64Array, start: Float64Array, weights: Float64Array): void {
  for (let k = 0; k < weights.length; k++)
    weights[k] = (start[k]! * LEAST_SCALE_EV) / Math.max(LEAST_SCALE_EV, off[k]!);
}

/** Writes Tukey's weights, the scale from the median residual. */
function biweights(off: Float64Array, weights: Float64Array): void {
  const reach = 4.685 * Math.max(LEAST_SCALE_EV, 1.4826 * quantile(off, 0.5));
  for (let k = 0; k < weights.length; k++) {
    const ratio = off[k]! / reach;
    weights[k] = ratio < 1 ? (1 - ratio * ratio) ** 2 : 0;
  }
}
