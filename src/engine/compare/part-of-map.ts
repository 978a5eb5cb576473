import type { FrameRectangle, Reading } from '../reading.ts';

/** The cells of a part of the frame, and where they lie. */
export interface PartGrid {
  readonly region: FrameRectangle;
  readonly columns: number;
  readonly rows: number;
}

/** Nearer than this to a cell's own middle counts as there: arithmetic alone moves it so far. */
const HAIR = 1e-9;

/**
 * A reading's map at the middles of other cells, by their place across the frame: bilinear between the middles of its own,
 * and on at its slope for the half cell between the outermost ones and its edge. NaN where a cell that it hangs on holds
 * nothing.
 */
export function partOfMap(
  { region, grid }: Pick<Reading, 'region' | 'grid'>,
  map: readonly (number | null)[],
  part: PartGrid,
): Float64Array {
  const across = placesIn(
    grid.columns,
    region.left,
    region.right,
    part.columns,
    part.region.left,
    part.region.right,
  );
  const down = placesIn(grid.rows, region.top, region.bottom, part.rows, part.region.top, part.region.bottom);
  const values = new Float64Array(part.columns * part.rows);
  for (let row = 0; row < part.rows; row++)
    for (let column = 0; column < part.columns; column++) {
      const [x, y] = [across[column]!, down[row]!];
      let sum = 0;
      for (const [cellRow, rowShare] of y)
        for (const [cellColumn, columnShare] of x)
          sum += rowShare * columnShare * (map[cellRow * grid.columns + cellColumn] ?? Number.NaN);
      values[row * part.columns + column] = sum;
    }
  return values;
}

type Shares = readonly (readonly [cell: number, share: number])[];

/** For each new middle along one direction, the cells it lies between and each one's share; the shares add up to 1. */
function placesIn(
  cells: number,
  from: number,
  to: number,
  wanted: number,
  start: number,
  end: number,
): Shares[] {
  return Array.from({ length: wanted }, (_, i) => {
    const place = start + ((i + 0.5) / wanted) * (end - start);
    const at = ((place - from) / (to - from)) * cells - 0.5;
    const nearest = Math.round(at);
    if (cells === 1 || (Math.abs(at - nearest) < HAIR && nearest >= 0 && nearest < cells))
      return [[Math.min(cells - 1, Math.max(0, nearest)), 1]];
    const first = Math.min(cells - 2, Math.max(0, Math.floor(at)));
    return [
      [first, 1 - (at - first)],
      [first + 1, at - first],
    ];
  });
}
