import { type Xyz, xyzOfSrgbLight } from './colour-truth.ts';
import type { KnownField } from './known-field.ts';

export interface TrueRegion {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface CellLayout {
  readonly columns: number;
  readonly rows: number;
  /** The whole frame where left out. */
  readonly region?: TrueRegion;
}

/**
 * Mean XYZ of every cell, row-major. Light is averaged over the cell's own area at 6 × 6 Gauss–Legendre points, or,
 * where a raster is given, over the pixel centres that lie in the cell (centres on a border go right and down).
 */
export function cellMeans(
  field: KnownField,
  { columns, rows, region = WHOLE }: CellLayout,
  raster?: { readonly widthPx: number; readonly heightPx: number },
): Xyz[] {
  const width = (region.right - region.left) / columns;
  const height = (region.bottom - region.top) / rows;
  const cells: Xyz[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const left = region.left + column * width;
      const top = region.top + row * height;
      const xs = raster ? centresBetween(left, left + width, raster.widthPx) : gaussPoints(left, width);
      const ys = raster ? centresBetween(top, top + height, raster.heightPx) : gaussPoints(top, height);
      cells.push(xyzOfSrgbLight(weightedMean(field, xs, ys)));
    }
  }
  return cells;
}

/** XYZ at every cell's centre, row-major: the field itself, not averaged. */
export function cellCentres(field: KnownField, { columns, rows, region = WHOLE }: CellLayout): Xyz[] {
  const cells: Xyz[] = [];
  for (let row = 0; row < rows; row++) {
    const y = region.top + ((row + 0.5) / rows) * (region.bottom - region.top);
    for (let column = 0; column < columns; column++) {
      const x = region.left + ((column + 0.5) / columns) * (region.right - region.left);
      cells.push(xyzOfSrgbLight(field(x, y)));
    }
  }
  return cells;
}

export const WHOLE: TrueRegion = { left: 0, top: 0, right: 1, bottom: 1 };

interface Weighted {
  readonly at: number;
  readonly weight: number;
}

/** Abscissae and weights on −1 to 1. Source: Abramowitz and Stegun 1964, table 25.4, n = 6. */
const GAUSS: readonly (readonly [number, number])[] = [
  [-0.932469514203152, 0.17132449237917],
  [-0.661209386466265, 0.360761573048139],
  [-0.238619186083197, 0.467913934572691],
  [0.238619186083197, 0.467913934572691],
  [0.661209386466265, 0.360761573048139],
  [0.932469514203152, 0.17132449237917],
];

function gaussPoints(start: number, length: number): Weighted[] {
  return GAUSS.map(([t, weight]) => ({ at: start + 0.5 * (t + 1) * length, weight }));
}

function centresBetween(start: number, end: number, pixels: number): Weighted[] {
  const first = Math.ceil(start * pixels - 0.5 - 1e-9);
  const after = Math.ceil(end * pixels - 0.5 - 1e-9);
  const points: Weighted[] = [];
  for (let pixel = first; pixel < after; pixel++) points.push({ at: (pixel + 0.5) / pixels, weight: 1 });
  return points;
}

function weightedMean(
  field: KnownField,
  xs: readonly Weighted[],
  ys: readonly Weighted[],
): [number, number, number] {
  let [red, green, blue, total] = [0, 0, 0, 0];
  for (const y of ys) {
    for (const x of xs) {
      const light = field(x.at, y.at);
      const weight = x.weight * y.weight;
      red += weight * light[0];
      green += weight * light[1];
      blue += weight * light[2];
      total += weight;
    }
  }
  return [red / total, green / total, blue / total];
}
