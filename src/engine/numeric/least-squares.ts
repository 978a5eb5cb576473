import { choleskySolve } from './cholesky-solve.ts';

/** What is to be made small: writes each residual at a point into `into`. */
export type Residuals = (point: Float64Array, into: Float64Array) => void;

export interface LeastSquaresFit {
  readonly point: Float64Array;
  /** Half the sum of squares there. */
  readonly cost: number;
  /** Jᵀ J there, row-major: the inverse covariance where residuals are in standard deviations. */
  readonly information: Float64Array;
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
  let jacobian = derivatives(residuals, point, here);
  let stale = 0;
  let information = squareOf(jacobian, size, count);
  const refresh = () => {
    jacobian = derivatives(residuals, point, here);
    information = squareOf(jacobian, size, count);
    stale = 0;
  };
  while (iterations < mostIterations) {
    iterations++;
    let slope = projected(jacobian, here, size, count);
    let gained = Number.NEGATIVE_INFINITY;
    while (damping < MOST_DAMPING) {
      const matrix = damped(information, size, damping);
      const velocity = choleskySolve(matrix, slope).map((value) => -value);
      bent(residuals, point, velocity, here, jacobian, curve);
      const bend = choleskySolve(matrix, projected(jacobian, curve, size, count));
      const isStraight = length(bend) < MOST_BENT * length(velocity);
      const step = velocity.map((value, i) => value - (isStraight ? bend[i]! / 2 : 0));
      const next = point.map((value, i) => value + step[i]!);
      residuals(next, tried);
      const nextCost = halfSquare(tried);
      if (nextCost < cost) {
        gained = cost - nextCost;
        stale++;
        if (stale <= MOST_STALE) follow(jacobian, step, here, tried);
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
    else information = squareOf(jacobian, size, count);
  }
  if (stale > 0) refresh();
  return { point, cost, information, iterations };
}

/**
 * What a step has shown of the derivatives, put into them: the least change that agrees with it.
 * Source: C. G. Broyden, Math. Comp. 19 (1965) 577.
 */
function follow(
  jacobian: readonly Float64Array[],
  step: Float64Array,
  before: Float64Array,
  after: Float64Array,
): void {
  const square = step.reduce((sum, value) => sum + value * value, 0);
  for (let k = 0; k < before.length; k++) {
    let foretold = before[k]!;
    for (let i = 0; i < step.length; i++) foretold += jacobian[i]![k]! * step[i]!;
    const off = (after[k]! - foretold) / square;
    for (let i = 0; i < step.length; i++) jacobian[i]![k]! += off * step[i]!;
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
  for (let k = 0; k < into.length; k++) {
    let along = 0;
    for (let i = 0; i < step.length; i++) along += jacobian[i]![k]! * step[i]!;
    into[k] = (2 / BENT_SHARE) * ((into[k]! - here[k]!) / BENT_SHARE - along);
  }
  if (!into.every(Number.isFinite)) into.fill(0);
}

function length(values: Float64Array): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
}

/** One row per direction: how every residual changes along it. */
function derivatives(residuals: Residuals, point: Float64Array, here: Float64Array): Float64Array[] {
  const moved = point.slice();
  return Array.from(point, (value, i) => {
    const row = new Float64Array(here.length);
    moved[i] = value + SMALLEST_STEP;
    residuals(moved, row);
    moved[i] = value;
    for (let k = 0; k < row.length; k++) row[k] = (row[k]! - here[k]!) / SMALLEST_STEP;
    // a direction that leads out of what can be worked out is left alone
    return row.every(Number.isFinite) ? row : row.fill(0);
  });
}

function squareOf(rows: readonly Float64Array[], size: number, count: number): Float64Array {
  const square = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const [a, b] = [rows[i]!, rows[j]!];
      let sum = 0;
      for (let k = 0; k < count; k++) sum += a[k]! * b[k]!;
      square[i * size + j] = sum;
      square[j * size + i] = sum;
    }
  return square;
}

function projected(
  rows: readonly Float64Array[],
  here: Float64Array,
  size: number,
  count: number,
): Float64Array {
  const slope = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    const row = rows[i]!;
    let sum = 0;
    for (let k = 0; k < count; k++) sum += row[k]! * here[k]!;
    slope[i] = sum;
  }
  return slope;
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
