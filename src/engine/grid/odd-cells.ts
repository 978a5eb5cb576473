import { quantile } from '../numeric/quantile.ts';
import type { CellGrid } from './cell-grid.ts';

/** A cell must differ by this much, and by this many robust deviations, from what its neighbours say… */
const LEAST_DEPARTURE_EV = 0.04;
const LEAST_DEPARTURE_SIGMA = 8;
/** …and hold, or touch a cell that holds, this share of specks: a bend of the light itself leaves none. */
const LEAST_SPECK_SHARE = 0.05;
/** Light itself does not bend by this much from one cell to the next. */
const SURELY_ODD_EV = 0.5;
const MAD_TO_SIGMA = 1.4826;
const REACH_CELLS = 2;

/** Offsets of one cell of each opposite pair within the 5 × 5 cells around. */
const HALF_RING: readonly (readonly [number, number])[] = (() => {
  const pairs: [number, number][] = [];
  for (let dy = 0; dy <= REACH_CELLS; dy++) {
    for (let dx = -REACH_CELLS; dx <= REACH_CELLS; dx++) if (dy > 0 || dx > 0) pairs.push([dx, dy]);
  }
  return pairs;
})();

function medianOfFirst(values: Float64Array, count: number): number {
  const part = values.subarray(0, count).sort();
  return count % 2 === 1 ? part[(count - 1) / 2]! : (part[count / 2 - 1]! + part[count / 2]!) / 2;
}

/**
 * Marks cells (1) whose light does not continue that of the cells around them: covered by a hanger, cut by a crease
 * or an edge. Each opposite pair of neighbours predicts the cell between them, exactly under any straight slope, and
 * the median of the predictions is held against the cell; so a neighbour that is itself spoilt does not count. A kink in
 * the light departs too, but without specks in or beside the cell.
 * Corners have no opposite pairs and are never marked.
 */
export function oddCells({ columns, rows, light, speckShare }: CellGrid): Uint8Array {
  const level = new Float64Array(columns * rows);
  for (let i = 0; i < level.length; i++) {
    level[i] = Math.log2(light.red[i]! + light.green[i]! + light.blue[i]!);
  }
  const departure = new Float64Array(level.length).fill(Number.NaN);
  const predictions = new Float64Array(HALF_RING.length);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      let count = 0;
      for (const [dx, dy] of HALF_RING) {
        if (column + dx < 0 || column - dx < 0 || column + dx >= columns || column - dx >= columns) continue;
        if (row + dy >= rows || row - dy < 0) continue;
        const prediction =
          (level[(row + dy) * columns + column + dx]! + level[(row - dy) * columns + column - dx]!) / 2;
        if (Number.isFinite(prediction)) predictions[count++] = prediction;
      }
      if (count > 0)
        departure[row * columns + column] =
          level[row * columns + column]! - medianOfFirst(predictions, count);
    }
  }
  const typical = MAD_TO_SIGMA * quantile(departure.map(Math.abs), 0.5);
  const limit = Math.max(LEAST_DEPARTURE_EV, LEAST_DEPARTURE_SIGMA * typical);
  const touchesSpecks = (i: number) => {
    for (let dy = -1; dy <= 1; dy++) {
      for (let dx = -1; dx <= 1; dx++) {
        const [column, row] = [(i % columns) + dx, Math.floor(i / columns) + dy];
        if (column < 0 || column >= columns || row < 0 || row >= rows) continue;
        if (speckShare[row * columns + column]! >= LEAST_SPECK_SHARE) return true;
      }
    }
    return false;
  };
  return Uint8Array.from(departure, (ev, i) =>
    Math.abs(ev) > SURELY_ODD_EV || (Math.abs(ev) > limit && touchesSpecks(i)) ? 1 : 0,
  );
}
