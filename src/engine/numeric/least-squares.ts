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
const LEAST_GAIN = 1e-4;
const MOST_DAMPING = 1e8;

/**
 * Least squares by Levenberg's and Marquardt's damped steps, derivatives by differences. Points are to be scaled so
 * that 1 is a usual step in each direction.
 * Source: D. W. Marquardt, J. SIAM 11 (1963) 431.
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
  let jacobian = derivatives(residuals, point, here);
  let information = squareOf(jacobian, size, count);
  while (iterations < mostIterations) {
    iterations++;
    const slope = projected(jacobian, here, size, count);
    let gained = Number.NEGATIVE_INFINITY;
    while (damping < MOST_DAMPING) {
      const step = choleskySolve(damped(information, size, damping), slope);
      const next = point.map((value, i) => value - step[i]!);
      residuals(next, tried);
      const nextCost = halfSquare(tried);
      if (nextCost < cost) {
        gained = cost - nextCost;
        point = next;
        cost = nextCost;
        [here, tried] = [tried, here];
        damping = Math.max(1e-9, damping / 5);
        break;
      }
      damping *= 5;
    }
    if (!(gained > Number.NEGATIVE_INFINITY)) break;
    jacobian = derivatives(residuals, point, here);
    information = squareOf(jacobian, size, count);
    if (gained < LEAST_GAIN) break;
  }
  return { point, cost, information, iterations };
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
    return row;
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
