import { quantile } from '../engine/numeric/quantile.ts';
import type { CellMap } from './cell-map.ts';

const MULTIPLES = [1, 2, 5, 10, 20, 50, 100, 200, 500];

/** Which of the values to draw lines at. */
export interface ContourLevels {
  /** Ascending, multiples of the step strictly between the map's extremes, without 0. */
  readonly levels: readonly number[];
  readonly step: number;
}

/**
 * Levels at the finest multiple of a unit (a tenth of a stop, say) whose lines do not crowd: on four fifths of the
 * map they lie at least `leastSpacing` apart. Holes (NaN) don't count; a map of holes has no levels.
 */
export function contourLevels(
  map: CellMap,
  { unit, cellSize, leastSpacing }: { unit: number; cellSize: number; leastSpacing: number },
): ContourLevels {
  const steep = quantile(slopesPerCell(map), 0.8);
  const wanted = (steep * leastSpacing) / cellSize;
  const step = unit * (MULTIPLES.find((multiple) => !(unit * multiple < wanted)) ?? 1000);
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of map.values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  const levels: number[] = [];
  for (let k = Math.ceil(least / step); k * step < most; k++)
    if (k !== 0 && k * step > least) levels.push(Number((k * step).toPrecision(12)));
  return { levels, step };
}

/** Steepness at each cell that has neighbours to the right and below, in values a cell; NaN next to holes. */
function slopesPerCell({ columns, rows, values }: CellMap): Float64Array {
  const slopes = new Float64Array(Math.max(0, (columns - 1) * (rows - 1)));
  for (let row = 0; row + 1 < rows; row++)
    for (let column = 0; column + 1 < columns; column++) {
      const here = values[row * columns + column]!;
      const right = values[row * columns + column + 1]! - here;
      const below = values[(row + 1) * columns + column]! - here;
      slopes[row * (columns - 1) + column] = Math.hypot(right, below);
    }
  return slopes;
}
