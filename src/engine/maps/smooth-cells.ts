import { solveSymmetric3 } from '../numeric/solve-symmetric3.ts';

const REACH_CELLS = 2;
const SIDE_CELLS = 2 * REACH_CELLS + 1;
/** Fewer measured cells than this share of a window leave its centre without a figure. */
const LEAST_MEASURED_SHARE = 0.5;

/** Smooths maps of one size and one set of cells without measurement again and again. */
export interface CellSmoother {
  /** Smooths `values` into `result`. Values at cells without measurement do not count. */
  smooth(values: Float64Array, result: Float64Array): void;
  /** Variance of a smoothed cell where every cell has independent variance 1; NaN where there is no figure. */
  readonly noiseGain: Float64Array;
}

/**
 * Prepares the smoothing of the contract: the least-squares plane over the 5 × 5 cells around a cell (those that
 * exist), at its centre. In the middle of the frame that is the plain mean; along edges and round gaps it extrapolates.
 * Cells where `measured` is NaN do not exist; where fewer than half of a window does, the result is NaN.
 */
export function cellSmoother(columns: number, rows: number, measured: Float64Array): CellSmoother {
  const count = columns * rows;
  const others: number[] = []; // cells without a whole window, and where each one's neighbours begin
  const starts: number[] = [];
  const neighbours: number[] = [];
  const weights: number[] = [];
  const noiseGain = new Float64Array(count).fill(Number.NaN);
  const isWhole = new Uint8Array(count);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const i = row * columns + column;
      if (hasWholeWindow(columns, rows, column, row, measured)) {
        isWhole[i] = 1;
        noiseGain[i] = 1 / SIDE_CELLS ** 2;
        continue;
      }
      others.push(i);
      starts.push(neighbours.length);
      const window = planeWeights(columns, rows, column, row, measured);
      if (!window) continue;
      noiseGain[i] = window.reduce((gain, [, weight]) => gain + weight * weight, 0);
      for (const [cell, weight] of window) {
        neighbours.push(cell);
        weights.push(weight);
      }
    }
  }
  starts.push(neighbours.length);
  const other = Int32Array.from(others);
  const start = Int32Array.from(starts);
  const cells = Int32Array.from(neighbours);
  const weight = Float64Array.from(weights);
  const columnSums = new Float64Array(columns);
  return {
    noiseGain,
    smooth(values, result) {
      for (let o = 0; o < other.length; o++) {
        const end = start[o + 1]!;
        let sum = 0;
        for (let k = start[o]!; k < end; k++) sum += weight[k]! * values[cells[k]!]!;
        result[other[o]!] = end > start[o]! ? sum : Number.NaN;
      }
      meansOfWholeWindows(values, columns, rows, isWhole, columnSums, result);
    },
  };
}

/** Whether all of a window's cells exist. */
function hasWholeWindow(
  columns: number,
  rows: number,
  column: number,
  row: number,
  measured: Float64Array,
): boolean {
  const isInside =
    Math.min(column, columns - 1 - column) >= REACH_CELLS && Math.min(row, rows - 1 - row) >= REACH_CELLS;
  if (!isInside) return false;
  for (let y = row - REACH_CELLS; y <= row + REACH_CELLS; y++)
    for (let x = column - REACH_CELLS; x <= column + REACH_CELLS; x++)
      if (Number.isNaN(measured[y * columns + x]!)) return false;
  return true;
}

/** At the centre of a whole window the plane is the plain mean; two sums of five are quicker than one of twenty-five. */
function meansOfWholeWindows(
  values: Float64Array,
  columns: number,
  rows: number,
  isWhole: Uint8Array,
  columnSums: Float64Array,
  result: Float64Array,
): void {
  const below = 2 * columns;
  for (let row = REACH_CELLS; row < rows - REACH_CELLS; row++) {
    for (let column = 0, i = row * columns; column < columns; column++, i++)
      columnSums[column] =
        values[i - below]! + values[i - columns]! + values[i]! + values[i + columns]! + values[i + below]!;
    for (
      let column = REACH_CELLS, i = row * columns + column;
      column < columns - REACH_CELLS;
      column++, i++
    ) {
      if (isWhole[i] === 0) continue;
      const sum =
        columnSums[column - 2]! +
        columnSums[column - 1]! +
        columnSums[column]! +
        columnSums[column + 1]! +
        columnSums[column + 2]!;
      result[i] = sum / (SIDE_CELLS * SIDE_CELLS);
    }
  }
}

/** Cell and weight of every member of one window, or null where too few were measured. */
function planeWeights(
  columns: number,
  rows: number,
  column: number,
  row: number,
  measured: Float64Array,
): [number, number][] | null {
  const members: [number, number, number][] = [];
  let possible = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let dy = -REACH_CELLS; dy <= REACH_CELLS; dy++) {
    if (row + dy < 0 || row + dy >= rows) continue;
    for (let dx = -REACH_CELLS; dx <= REACH_CELLS; dx++) {
      if (column + dx < 0 || column + dx >= columns) continue;
      possible++;
      const cell = (row + dy) * columns + column + dx;
      if (Number.isNaN(measured[cell]!)) continue;
      members.push([cell, dx, dy]);
      sx += dx;
      sy += dy;
      sxx += dx * dx;
      sxy += dx * dy;
      syy += dy * dy;
    }
  }
  if (members.length < LEAST_MEASURED_SHARE * possible || members.length === 0) return null;
  // The value at (0, 0) of the plane a + bx·x + by·y is linear in the data: its weights solve the normal equations.
  const solution = solveSymmetric3([members.length, sx, sxx, sy, sxy, syy], [1, 0, 0]);
  if (!solution) return members.map(([cell]) => [cell, 1 / members.length]);
  const [a, bx, by] = solution;
  return members.map(([cell, dx, dy]) => [cell, a + bx * dx + by * dy]);
}
