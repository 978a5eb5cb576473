/** One of each pair of opposite neighbours about two cells off, every way round. */
const PAIRS: readonly (readonly [number, number])[] = [
  [2, 0],
  [2, 1],
  [1, 2],
  [0, 2],
  [-1, 2],
  [-2, 1],
];
/** With two ways missing a line along them would pass for a spot. */
const FEWEST_PAIRS = PAIRS.length - 1;

/**
 * How far each cell lies below what its neighbours foretell, the least of every way round: a spot lies below them all,
 * a line or the foot of a kink not along itself. Pairs two and four cells off foretell a parabola exactly. NaN where
 * too few pairs exist, and where the cell is NaN.
 */
export function spotDepths(map: Float64Array, columns: number, rows: number): Float64Array {
  return map.map((here, cell) => {
    if (Number.isNaN(here)) return Number.NaN;
    const column = cell % columns;
    const row = Math.floor(cell / columns);
    let least = Number.POSITIVE_INFINITY;
    let pairs = 0;
    for (const [dx, dy] of PAIRS) {
      const near = pairMean(map, columns, rows, column, row, dx, dy);
      const far = pairMean(map, columns, rows, column, row, 2 * dx, 2 * dy);
      if (Number.isNaN(near) || Number.isNaN(far)) continue;
      pairs++;
      // the nearer pair alone as well: the far one may itself lie in a spot
      least = Math.min(least, (4 * near - far) / 3 - here, near - here);
    }
    return pairs < FEWEST_PAIRS ? Number.NaN : least;
  });
}

/**
 * How far each cell's share exceeds what runs through it as a line: the share less the larger of what both of an
 * opposite pair have. Pairs outside count as 0.
 */
export function spotShares(shares: Float64Array, columns: number, rows: number): Float64Array {
  return shares.map((here, cell) => {
    if (here === 0) return 0;
    const column = cell % columns;
    const row = Math.floor(cell / columns);
    let through = 0;
    const at = (c: number, r: number) =>
      c < 0 || r < 0 || c >= columns || r >= rows ? 0 : shares[r * columns + c]!;
    for (const [dx, dy] of PAIRS)
      through = Math.max(through, Math.min(at(column + dx, row + dy), at(column - dx, row - dy)));
    return here - through;
  });
}

/** A line is followed over so many cells each way. */
const ALONG_CELLS = 3;
/** The straight ways that a line may run through a cell. */
const WAYS: readonly (readonly [number, number])[] = [
  [1, 0],
  [2, 1],
  [1, 1],
  [1, 2],
  [0, 1],
  [-1, 2],
  [-1, 1],
  [-2, 1],
];
/** A line's own cells vary: one may have twice the mean of the others. */
const TIMES_MEAN = 2;

/**
 * How far each cell's share exceeds twice the mean of the cells in a line with it, whichever way that mean is largest.
 * Cells outside count as 0.
 */
export function loneShares(shares: Float64Array, columns: number, rows: number): Float64Array {
  return shares.map((here, cell) => {
    if (here === 0) return 0;
    const column = cell % columns;
    const row = Math.floor(cell / columns);
    let most = 0;
    for (const [dx, dy] of WAYS) {
      const step = 1 / Math.max(Math.abs(dx), Math.abs(dy));
      let sum = 0;
      for (let k = -ALONG_CELLS; k <= ALONG_CELLS; k++) {
        const c = column + Math.round(k * step * dx);
        const r = row + Math.round(k * step * dy);
        if (k !== 0 && c >= 0 && r >= 0 && c < columns && r < rows) sum += shares[r * columns + c]!;
      }
      most = Math.max(most, sum / (2 * ALONG_CELLS));
    }
    return here - TIMES_MEAN * most;
  });
}

function pairMean(
  map: Float64Array,
  columns: number,
  rows: number,
  column: number,
  row: number,
  dx: number,
  dy: number,
): number {
  const [c1, c2, r1, r2] = [column + dx, column - dx, row + dy, row - dy];
  if (Math.min(c1, c2, r1, r2) < 0 || Math.max(c1, c2) >= columns || Math.max(r1, r2) >= rows)
    return Number.NaN;
  return (map[r1 * columns + c1]! + map[r2 * columns + c2]!) / 2;
}
