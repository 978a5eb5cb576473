import { choleskySolver } from './cholesky-solve.ts';

/** What is to be made small: writes each residual at a point into `into`. */
export type Residuals = (point: Float64Array, into: Float64Array) => void;

/** A cheaper way to the residuals next to a point, to first order; good until the residuals themselves are asked for. */
export type Near = (point: Float64Array) => Residuals;

export interface LeastSquaresFit {
  readonly point: Float64Array;
  /** Half the sum of squares there. */
  readonly cost: number;
  /**
   * Jᵀ J there, row-major: the inverse covariance where residuals are in standard deviations. Worked out when it is
   * asked for.
   */
  readonly information: () => Float64Array;
  readonly iterations: number;
}

const SMALLEST_STEP = 1e-4;
/** A round that gains less than this is the last; residuals are in standard deviations. */
const LEAST_GAIN = 3e-3;
const MOST_DAMPING = 1e8;
/** So many steps in turn go by what the last ones have shown of the derivatives, before these are worked out anew. */
const MOST_STALE = 2;
/** Share of a step at which its bend is looked up, and the most that it may bend to be followed. */
const BENT_SHARE = 0.1;
const MOST_BENT = 0.75;

/**
 * Least squares by Levenberg's and Marquardt's damped steps, each bent along the valley that it follows: a fifth of
 * the rounds where parameters trade against each other. Derivatives by differences; points are to be scaled so that 1
 * is a usual step in each direction.
 * Sources: D. W. Marquardt, J. SIAM 11 (1963) 431; M. K. Transtrum, J. P. Sethna, arXiv:1201.5885 (2012).
 */
export function leastSquares(
  residuals: Residuals,
  start: Float64Array,
  count: number,
  mostIterations: number,
  near: Near = () => residuals,
): LeastSquaresFit {
  const size = start.length;
  let point = start.slice();
  let here = new Float64Array(count);
  let tried = new Float64Array(count);
  residuals(point, here);
  let cost = halfSquare(here);
  let damping = 1e-3;
  let iterations = 0;
  const curve = new Float64Array(count);
  const jacobian = Array.from({ length: size }, () => new Float64Array(count));
  const information = new Float64Array(size * size);
  let stale = 0;
  const refresh = () => {
    derivatives(near(point), point, here, jacobian);
    squareOf(jacobian, size, count, information);
    stale = 0;
  };
  refresh();
  while (iterations < mostIterations) {
    iterations++;
    let slope = projected(jacobian, here, size, count);
    let gained = Number.NEGATIVE_INFINITY;
    while (damping < MOST_DAMPING) {
      const solve = choleskySolver(damped(information, size, damping), size);
      const velocity = solve(slope).map((value) => -value);
      bent(residuals, point, velocity, here, jacobian, curve);
      const bend = solve(projected(jacobian, curve, size, count));
      const isStraight = length(bend) < MOST_BENT * length(velocity);
      const step = velocity.map((value, i) => value - (isStraight ? bend[i]! / 2 : 0));
      const next = point.map((value, i) => value + step[i]!);
      residuals(next, tried);
      const nextCost = halfSquare(tried);
      if (nextCost < cost) {
        gained = cost - nextCost;
        stale++;
        if (stale <= MOST_STALE) follow(jacobian, information, step, here, tried, curve);
        point = next;
        cost = nextCost;
        [here, tried] = [tried, here];
        damping = Math.max(1e-9, damping / 5);
        break;
      }
      if (stale > 0) {
        refresh();
        slope = projected(jacobian, here, size, count);
      } else damping *= 5;
    }
    if (!(gained > LEAST_GAIN)) {
      if (stale < 2) break;
      refresh(); // it may be the derivatives that are at their end, not the valley
      continue;
    }
    if (stale > MOST_STALE) refresh();
  }
  return {
    point,
    cost,
    information: () => {
      if (stale > 0) refresh();
      return information;
    },
    iterations,
  };
}

/**
 * What a step has shown of the derivatives, put into them and into their square: the least change that agrees with it.
 * Source: C. G. Broyden, Math. Comp. 19 (1965) 577.
 */
function follow(
  jacobian: readonly Float64Array[],
  information: Float64Array,
  step: Float64Array,
  before: Float64Array,
  after: Float64Array,
  off: Float64Array,
): void {
  const [size, count] = [step.length, before.length];
  const square = step.reduce((sum, value) => sum + value * value, 0);
  for (let k = 0; k < count; k++) off[k] = after[k]! - before[k]!;
  for (let i = 0; i < size; i++) addTimes(off, -step[i]!, jacobian[i]!);
  for (let k = 0; k < count; k++) off[k]! /= square;
  const shown = projected(jacobian, off, size, count);
  const offSquare = dot(off, off, count);
  for (let i = 0; i < size; i++) {
    addTimes(jacobian[i]!, step[i]!, off);
    for (let j = 0; j < size; j++)
      information[i * size + j]! +=
        step[i]! * shown[j]! + step[j]! * shown[i]! + step[i]! * step[j]! * offSquare;
  }
}

/** Second derivative of every residual along a step: how the straight step misses the valley's bend. */
function bent(
  residuals: Residuals,
  point: Float64Array,
  step: Float64Array,
  here: Float64Array,
  jacobian: readonly Float64Array[],
  into: Float64Array,
): void {
  residuals(
    point.map((value, i) => value + BENT_SHARE * step[i]!),
    into,
  );
  for (let k = 0; k < into.length; k++) into[k] = (into[k]! - here[k]!) / BENT_SHARE;
  for (let i = 0; i < step.length; i++) addTimes(into, -step[i]!, jacobian[i]!);
  for (let k = 0; k < into.length; k++) into[k]! *= 2 / BENT_SHARE;
  if (!areFinite(into)) into.fill(0);
}

function length(values: Float64Array): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
}

/** Writes one row per direction: how every residual changes along it. */
function derivatives(
  nearby: Residuals,
  point: Float64Array,
  here: Float64Array,
  into: readonly Float64Array[],
): void {
  const moved = point.slice();
  into.forEach((row, i) => {
    moved[i] = point[i]! + SMALLEST_STEP;
    nearby(moved, row);
    moved[i] = point[i]!;
    for (let k = 0; k < row.length; k++) row[k] = (row[k]! - here[k]!) / SMALLEST_STEP;
    if (!areFinite(row)) row.fill(0); // a direction that leads out of what can be worked out is left alone
  });
}

function areFinite(values: Float64Array): boolean {
  let sum = 0;
  for (const value of values) sum += value - value; // 0 of a number, NaN of all else
  return sum === 0;
}

function squareOf(rows: readonly Float64Array[], size: number, count: number, into: Float64Array): void {
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const sum = dot(rows[i]!, rows[j]!, count);
      into[i * size + j] = sum;
      into[j * size + i] = sum;
    }
}

function projected(
  rows: readonly Float64Array[],
  here: Float64Array,
  size: number,
  count: number,
): Float64Array {
  const slope = new Float64Array(size);
  for (let i = 0; i < size; i++) slope[i] = dot(rows[i]!, here, count);
  return slope;
}

/** Four sums side by side: one alone waits for each addition. */
function dot(a: Float64Array, b: Float64Array, count: number): number {
  let [sum, second, third, fourth] = [0, 0, 0, 0];
  const whole = count - (count % 4);
  for (let k = 0; k < whole; k += 4) {
    sum += a[k]! * b[k]!;
    second += a[k + 1]! * b[k + 1]!;
    third += a[k + 2]! * b[k + 2]!;
    fourth += a[k + 3]! * b[k + 3]!;
  }
  for (let k = whole; k < count; k++) sum += a[k]! * b[k]!;
  return sum + second + third + fourth;
}

function addTimes(to: Float64Array, times: number, values: Float64Array): void {
  for (let k = 0; k < to.length; k++) to[k]! += times * values[k]!;
}

function damped(information: Float64Array, size: number, damping: number): Float64Array {
  const matrix = information.slice();
  for (let i = 0; i < size; i++) matrix[i * size + i]! += damping * (1 + information[i * size + i]!);
  return matrix;
}

/** Infinite where any residual is no number: such a point is never taken. */
function halfSquare(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return Number.isNaN(sum) ? Number.POSITIVE_INFINITY : sum / 2;
}
