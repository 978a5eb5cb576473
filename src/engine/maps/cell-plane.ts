import { solveSymmetric3 } from '../numeric/solve-symmetric3.ts';
import type { FrameRectangle } from '../reading.ts';

/**
 * Square-pixel coordinates of a region: 1 is the width of the frame, x right and y down from the region's centre.
 */
export interface RegionGeometry {
  readonly centre: { readonly x: number; readonly y: number };
  /** Half of the region's width and height, in frame widths. */
  readonly halfWidth: number;
  readonly halfHeight: number;
  /** Height of the frame in frame widths. */
  readonly frameAspect: number;
}

export function regionGeometry(
  region: FrameRectangle,
  columns: number,
  rows: number,
  cellWidthPx: number,
  cellHeightPx: number,
): RegionGeometry {
  const width = region.right - region.left;
  const height = region.bottom - region.top;
  const frameAspect = (rows * cellHeightPx) / height / ((columns * cellWidthPx) / width);
  return {
    centre: { x: (region.left + region.right) / 2, y: (region.top + region.bottom) / 2 },
    halfWidth: width / 2,
    halfHeight: (height * frameAspect) / 2,
    frameAspect,
  };
}

/** A plane over the region: its value at the centre and its slopes per frame width, right and down. */
export interface Plane {
  atCentre: number;
  right: number;
  down: number;
}

/**
 * Prepares least-squares planes through cells of one grid, in square-pixel coordinates. Cells where `measured` is NaN
 * don't count; with fewer than three, or all in one line, slopes that can't be told are 0.
 */
export function planeFitter(
  columns: number,
  rows: number,
  geometry: RegionGeometry,
  measured: Float64Array,
): (values: Float64Array) => Plane {
  const { halfWidth, halfHeight } = geometry;
  const xs = Float64Array.from({ length: columns }, (_, i) => ((2 * i + 1) / columns - 1) * halfWidth);
  const ys = Float64Array.from({ length: rows }, (_, i) => ((2 * i + 1) / rows - 1) * halfHeight);
  let n = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (Number.isNaN(measured[row * columns + column]!)) continue;
      const x = xs[column]!;
      const y = ys[row]!;
      n++;
      sx += x;
      sy += y;
      sxx += x * x;
      sxy += x * y;
      syy += y * y;
    }
  }
  return (values) => {
    let sum = 0;
    let sumX = 0;
    let sumY = 0;
    for (let row = 0; row < rows; row++) {
      let rowSum = 0;
      let rowX = 0;
      for (let column = 0; column < columns; column++) {
        const i = row * columns + column;
        if (Number.isNaN(measured[i]!)) continue;
        rowSum += values[i]!;
        rowX += values[i]! * xs[column]!;
      }
      sum += rowSum;
      sumX += rowX;
      sumY += rowSum * ys[row]!;
    }
    const solved = solveSymmetric3([n, sx, sxx, sy, sxy, syy], [sum, sumX, sumY]);
    if (!solved) return { atCentre: n > 0 ? sum / n : Number.NaN, right: 0, down: 0 };
    return { atCentre: solved[0], right: solved[1], down: solved[2] };
  };
}
