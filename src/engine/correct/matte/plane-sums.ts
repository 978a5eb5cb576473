/** Sums of a plane from its top left corner, so that the mean over any rectangle takes four numbers. */
export interface PlaneSums {
  readonly columns: number;
  readonly rows: number;
  /** (columns + 1) × (rows + 1), the first row and column 0. */
  readonly sums: Float64Array;
}

/** Source: F. C. Crow, "Summed-area tables for texture mapping", SIGGRAPH 1984. NaN spoils all that follows. */
export function planeSums(plane: ArrayLike<number>, columns: number, rows: number): PlaneSums {
  const stride = columns + 1;
  const sums = new Float64Array(stride * (rows + 1));
  for (let row = 0; row < rows; row++) {
    let line = 0;
    const at = (row + 1) * stride + 1;
    for (let column = 0; column < columns; column++) {
      line += plane[row * columns + column]!;
      sums[at + column] = sums[at + column - stride]! + line;
    }
  }
  return { columns, rows, sums };
}

/** Sum over columns x0 to x1 and rows y0 to y1, the far ones excluded; all must lie in the plane. */
export function sumOver(
  { columns, sums }: PlaneSums,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): number {
  const stride = columns + 1;
  const top = y0 * stride;
  const bottom = y1 * stride;
  return sums[bottom + x1]! - sums[bottom + x0]! - sums[top + x1]! + sums[top + x0]!;
}

/** Mean over the square that reaches `reach` cells from each, of what of it lies in the plane. */
export function boxMean(
  plane: ArrayLike<number>,
  columns: number,
  rows: number,
  reach: number,
  into = new Float32Array(columns * rows),
): Float32Array {
  const all = planeSums(plane, columns, rows);
  for (let y = 0, at = 0; y < rows; y++) {
    const [y0, y1] = [Math.max(0, y - reach), Math.min(rows, y + reach + 1)];
    for (let x = 0; x < columns; x++, at++) {
      const [x0, x1] = [Math.max(0, x - reach), Math.min(columns, x + reach + 1)];
      into[at] = sumOver(all, x0, y0, x1, y1) / ((x1 - x0) * (y1 - y0));
    }
  }
  return into;
}
