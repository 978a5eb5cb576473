import type { CellMask } from './cell-mask.ts';

/** Deepest edge that is peeled, in cells; a change over more is the light's own. */
const DEEPEST_EDGE = 8;
/** Cells inward from which the light is continued to the cell that is tried. */
const RUN = 5;
const FEWEST_FOR_A_SLOPE = 3;

/**
 * Takes the cells off a lit area's edge that are darker, by more than `leastStops`, than the light further in leads to
 * expect: cells that the edge cuts, and those that it blurs into. Where the area meets the frame's border nothing
 * ends, and nothing is taken off. Levels in stops; NaN cells are neither tried nor followed.
 */
export function peelSoftEdge(mask: CellMask, levels: Float64Array, leastStops: number): CellMask {
  const { columns, rows } = mask;
  const cells = mask.cells.slice();
  /** Goes inward from the first cell of a run of marked ones. */
  const peel = (start: number, inward: number, length: number) => {
    const depth = Math.min(DEEPEST_EDGE, length - FEWEST_FOR_A_SLOPE);
    let soft = -1;
    for (let k = 0; k < depth; k++) {
      const expected = continued(levels, start + (k + 1) * inward, inward, Math.min(RUN, length - k - 1));
      if (expected - levels[start + k * inward]! > leastStops) soft = k;
    }
    for (let k = 0; k <= soft; k++) cells[start + k * inward] = 0;
  };
  const along = (start: number, stride: number, count: number) => {
    for (let first = 0; first < count; first++) {
      if (!mask.cells[start + first * stride]) continue;
      let after = first;
      while (after < count && mask.cells[start + after * stride]) after++;
      if (first > 0) peel(start + first * stride, stride, after - first);
      if (after < count) peel(start + (after - 1) * stride, -stride, after - first);
      first = after;
    }
  };
  for (let row = 0; row < rows; row++) along(row * columns, 1, columns);
  for (let column = 0; column < columns; column++) along(column, columns, rows);
  return { ...mask, cells };
}

/** Level one cell before a run of cells by the least-squares line through them; NaN where too few have one. */
function continued(levels: Float64Array, first: number, stride: number, count: number): number {
  let [n, sumX, sumY, sumXx, sumXy] = [0, 0, 0, 0, 0];
  for (let k = 1; k <= count; k++) {
    const level = levels[first + (k - 1) * stride]!;
    if (Number.isNaN(level)) continue;
    n++;
    sumX += k;
    sumY += level;
    sumXx += k * k;
    sumXy += k * level;
  }
  if (n < FEWEST_FOR_A_SLOPE) return Number.NaN;
  const slope = (n * sumXy - sumX * sumY) / (n * sumXx - sumX * sumX);
  return (sumY - slope * sumX) / n;
}
