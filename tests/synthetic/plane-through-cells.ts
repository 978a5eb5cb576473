/** A plane value = centre + right × (x − middle) + down × (y − middle) fitted by least squares. */
export interface CellPlane {
  readonly centre: number;
  readonly right: number;
  readonly down: number;
}

/**
 * Least-squares plane through values at positions, by the normal equations about the mean position; `centre` is its
 * value at (`atX`, `atY`).
 */
export function planeThrough(
  xs: readonly number[],
  ys: readonly number[],
  values: readonly number[],
  atX: number,
  atY: number,
): CellPlane {
  const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;
  const [meanX, meanY, meanValue] = [mean(xs), mean(ys), mean(values)];
  let [xx, yy, xy, xv, yv] = [0, 0, 0, 0, 0];
  for (let i = 0; i < values.length; i++) {
    const [dx, dy, dv] = [xs[i]! - meanX, ys[i]! - meanY, values[i]! - meanValue];
    xx += dx * dx;
    yy += dy * dy;
    xy += dx * dy;
    xv += dx * dv;
    yv += dy * dv;
  }
  const determinant = xx * yy - xy * xy;
  const right = (yy * xv - xy * yv) / determinant;
  const down = (xx * yv - xy * xv) / determinant;
  return { centre: meanValue + right * (atX - meanX) + down * (atY - meanY), right, down };
}

/** Each cell replaced by the plane through the 5 × 5 cells around it that exist, at its centre. */
export function smoothedByPlanes(values: readonly number[], columns: number, rows: number): number[] {
  const smoothed: number[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [xs, ys, around]: [number[], number[], number[]] = [[], [], []];
      for (let y = Math.max(0, row - 2); y <= Math.min(rows - 1, row + 2); y++) {
        for (let x = Math.max(0, column - 2); x <= Math.min(columns - 1, column + 2); x++) {
          xs.push(x);
          ys.push(y);
          around.push(values[y * columns + x]!);
        }
      }
      smoothed.push(planeThrough(xs, ys, around, column, row).centre);
    }
  }
  return smoothed;
}
