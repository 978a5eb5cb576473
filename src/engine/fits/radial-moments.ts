import type { FrameRectangle } from '../reading.ts';
import type { FittingCells } from './fitting-cells.ts';
import { polynomialBasis, polynomialSize, polynomialTerm } from './polynomial-basis.ts';
import { RADIAL_TERMS, radialScaleAbout } from './radial-basis.ts';

const SIDE_DEGREE = 2 * (RADIAL_TERMS - 1);
const SIDE_SIZE = polynomialSize(SIDE_DEGREE);
const DEGREE = 2 * SIDE_DEGREE;
const SIZE = polynomialSize(DEGREE);

/**
 * What the normal equations of 1, s, s², s³ about ANY centre are made of, without looking at the cells again: s is
 * a polynomial in p and q, so that all sums over cells come down to sums of pᵃ·qᵇ.
 */
export interface RadialMoments {
  /** Σ weight × pᵃ·qᵇ, a + b ≤ 12, in the order of `polynomialTerm`. */
  readonly weight: Float64Array;
  /** Σ weight × log2 light × pᵃ·qᵇ, a + b ≤ 6, for red, green, blue. */
  readonly light: readonly Float64Array[];
}

/** Sums the moments of each fold's own cells in one pass. */
export function foldRadialMoments(region: FrameRectangle, cells: FittingCells): RadialMoments[] {
  const basis = polynomialBasis(region, DEGREE);
  const values = new Float64Array(SIZE);
  const { red, green, blue } = cells.log2Light;
  const folds = Array.from({ length: cells.folds }, () => ({
    weight: new Float64Array(SIZE),
    light: [new Float64Array(SIDE_SIZE), new Float64Array(SIDE_SIZE), new Float64Array(SIDE_SIZE)] as const,
  }));
  for (let at = 0; at < cells.count; at++) {
    const cellWeight = cells.weight[at]!;
    if (cellWeight === 0) continue;
    basis.write(cells.x[at]!, cells.y[at]!, values, 0);
    const { weight, light } = folds[cells.fold[at]!]!;
    const [ofRed, ofGreen, ofBlue] = light;
    const weightedRed = cellWeight * red[at]!;
    const weightedGreen = cellWeight * green[at]!;
    const weightedBlue = cellWeight * blue[at]!;
    for (let k = 0; k < SIZE; k++) weight[k]! += cellWeight * values[k]!;
    for (let k = 0; k < SIDE_SIZE; k++) {
      ofRed[k]! += weightedRed * values[k]!;
      ofGreen[k]! += weightedGreen * values[k]!;
      ofBlue[k]! += weightedBlue * values[k]!;
    }
  }
  return folds;
}

/** Moments of all folds but one; of all where `left` is null. */
export function momentsWithout(folds: readonly RadialMoments[], left: number | null): RadialMoments {
  const weight = new Float64Array(SIZE);
  const light = [new Float64Array(SIDE_SIZE), new Float64Array(SIDE_SIZE), new Float64Array(SIDE_SIZE)];
  folds.forEach((fold, number) => {
    if (number === left) return;
    for (let k = 0; k < SIZE; k++) weight[k]! += fold.weight[k]!;
    light.forEach((sums, channel) => {
      for (let k = 0; k < SIDE_SIZE; k++) sums[k]! += fold.light[channel]![k]!;
    });
  });
  return { weight, light };
}

/**
 * Normal equations of 1, s, s², s³ about the centre (p, q): the matrix, 4 × 4 and row-major, and a side a channel.
 */
export function normalEquationsAbout(
  { weight, light }: RadialMoments,
  regionAspect: number,
  centreP: number,
  centreQ: number,
): { matrix: Float64Array; sides: Float64Array[] } {
  const powers = powersOfSquaredDistance(regionAspect, centreP, centreQ);
  const matrix = new Float64Array(RADIAL_TERMS * RADIAL_TERMS);
  for (let power = 0; power < powers.length; power++) {
    const sum = product(powers[power]!, weight);
    // sᵃ·sᵇ depends on a + b alone
    for (let a = Math.max(0, power - RADIAL_TERMS + 1); a <= Math.min(power, RADIAL_TERMS - 1); a++) {
      matrix[a * RADIAL_TERMS + power - a] = sum;
    }
  }
  const sides = light.map((sums) =>
    Float64Array.from({ length: RADIAL_TERMS }, (_, power) => product(powers[power]!, sums)),
  );
  return { matrix, sides };
}

/** s⁰ to s⁶ as polynomials in p and q. */
function powersOfSquaredDistance(regionAspect: number, centreP: number, centreQ: number): Float64Array[] {
  const { alongP, alongQ } = radialScaleAbout(regionAspect, centreP, centreQ);
  const pp = alongP * alongP;
  const qq = alongQ * alongQ;
  const constant = pp * centreP * centreP + qq * centreQ * centreQ;
  const powers = [Float64Array.of(1)];
  for (let power = 1; power <= 2 * (RADIAL_TERMS - 1); power++) {
    const previous = powers[power - 1]!;
    const next = new Float64Array(polynomialSize(2 * power));
    for (let sum = 0; sum <= 2 * (power - 1); sum++) {
      for (let b = 0; b <= sum; b++) {
        const a = sum - b;
        const value = previous[polynomialTerm(a, b)]!;
        next[polynomialTerm(a, b)]! += constant * value;
        next[polynomialTerm(a + 1, b)]! -= 2 * pp * centreP * value;
        next[polynomialTerm(a, b + 1)]! -= 2 * qq * centreQ * value;
        next[polynomialTerm(a + 2, b)]! += pp * value;
        next[polynomialTerm(a, b + 2)]! += qq * value;
      }
    }
    powers.push(next);
  }
  return powers;
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
