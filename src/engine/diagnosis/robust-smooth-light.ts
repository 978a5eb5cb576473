import { quantile } from '../numeric/quantile.ts';
import { evaluateLegendreSurface, fitLegendreSurface } from './legendre-surface.ts';

/** Total degree: enough for a hot spot a fifth of the frame wide, too little for an edge. */
const DEGREE = 10;
const ROUNDS = 5;

/** Below this many stops a scatter about the surface is taken as none, so that a perfect field has a scale too. */
const LEAST_SCALE_EV = 0.01;

/**
 * A smooth surface through a map in stops that objects in part of it do not pull along: least squares, reweighted
 * by Tukey's biweight. Cells that are NaN are left out; `null` where hardly any is left.
 * Source of the biweight and its constant 4.685: Beaton & Tukey 1974, Technometrics 16 (from memory).
 */
export function robustSmoothLight(stops: Float64Array, columns: number, rows: number): Float64Array | null {
  const coarse = pooled(stops, columns, rows);
  const weights = new Float64Array(coarse.values.length).fill(1);
  const samples = { ...coarse, weights };
  let surface = fitLegendreSurface(samples, DEGREE);
  for (let round = 1; round < ROUNDS && surface !== null; round++) {
    const fitted = evaluateLegendreSurface(surface, coarse.columns, coarse.rows);
    const off = coarse.values.map((value, k) => Math.abs(value - fitted[k]!));
    const reach = 4.685 * Math.max(LEAST_SCALE_EV, 1.4826 * quantile(off, 0.5));
    for (let k = 0; k < weights.length; k++) {
      const ratio = off[k]! / reach;
      weights[k] = ratio < 1 ? (1 - ratio * ratio) ** 2 : 0;
    }
    const next = fitLegendreSurface(samples, DEGREE);
    if (next === null) break;
    surface = next;
  }
  return surface === null ? null : evaluateLegendreSurface(surface, columns, rows);
}

/** Averages blocks of cells, so that the fit costs a quarter; a block with no cell is NaN. */
function pooled(stops: Float64Array, columns: number, rows: number) {
  const block = Math.min(columns, rows) >= 32 ? 2 : 1;
  const across = Math.ceil(columns / block);
  const down = Math.ceil(rows / block);
  // An odd last row or column would shift the blocks' centres against the evenly spaced ones of the fit.
  if (block === 1 || columns % block !== 0 || rows % block !== 0) return { columns, rows, values: stops };
  const values = new Float64Array(across * down);
  for (let row = 0; row < down; row++) {
    for (let column = 0; column < across; column++) {
      let sum = 0;
      let count = 0;
      for (let k = 0; k < block * block; k++) {
        const cell = (row * block + Math.floor(k / block)) * columns + column * block + (k % block);
        if (Number.isNaN(stops[cell]!)) continue;
        sum += stops[cell]!;
        count++;
      }
      values[row * across + column] = count === 0 ? Number.NaN : sum / count;
    }
  }
  return { columns: across, rows: down, values };
}
