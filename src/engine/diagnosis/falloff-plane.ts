import { cellCentre } from '../numeric/cell-centre.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';

/** The falloff map with NaN for its gaps, and the gradient's plane at the same cells (zero in the centre). */
export interface FalloffPlane {
  readonly ev: Float64Array;
  readonly plane: Float64Array;
}

/** A region counted from its own centre. */
const AROUND_ITS_CENTRE = { left: -0.5, top: -0.5, right: 0.5, bottom: 0.5 };

/**
 * Lays the gradient's plane over the cells of the falloff map; `null` where the gradient has no direction.
 * In square-pixel coordinates the plane rises along `angleDeg`, and by `ev` over the region's corners.
 */
export function falloffPlane({ measurement }: Pick<DiagnosisInput, 'measurement'>): FalloffPlane | null {
  const { gradient, region, frame, grid, falloff } = measurement;
  if (gradient.angleDeg === null) return null;
  const right = Math.cos((gradient.angleDeg * Math.PI) / 180);
  const down = Math.sin((gradient.angleDeg * Math.PI) / 180);
  const widthPx = (region.right - region.left) * frame.widthPx;
  const heightPx = (region.bottom - region.top) * frame.heightPx;
  const evPerPx = gradient.ev / (Math.abs(right) * widthPx + Math.abs(down) * heightPx);
  const plane = new Float64Array(grid.columns * grid.rows);
  for (let cell = 0; cell < plane.length; cell++) {
    const { x, y } = cellCentre({ ...grid, region: AROUND_ITS_CENTRE }, cell);
    plane[cell] = evPerPx * (right * x * widthPx + down * y * heightPx);
  }
  return { ev: falloffMap(falloff.evMap), plane };
}

/** A reading's map with NaN where it says `null`. */
export function falloffMap(evMap: readonly (number | null)[]): Float64Array {
  return Float64Array.from(evMap, (ev) => ev ?? Number.NaN);
}

/** How much smaller the spread of a map is once a part of it is taken out; NaN cells don't count. */
export function fallInSpread(map: Float64Array, part: Float64Array): number {
  return spreadOf(map) - spreadOf(map.map((value, cell) => value - part[cell]!));
}

function spreadOf(map: Float64Array): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of map) {
    if (value < low) low = value; // NaN compares false
    if (value > high) high = value;
  }
  return high > low ? high - low : 0;
}
