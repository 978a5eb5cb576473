import { quantile } from '../numeric/quantile.ts';
import type { CellMask } from './cell-mask.ts';

/** Deepest edge that is peeled, in cells; a change over more is the light's own. */
const DEEPEST_EDGE = 8;
/** Cells beyond it that tell how the light itself bends. */
const BEND_CELLS = 4;
/** Cells inward from which the light is continued to the cell that is tried. */
const RUN = 5;
const FEWEST_FOR_A_SLOPE = 3;
/** At the frame's border no edge is expected, only the wedge of one that leaves the frame there; more is asked. */
const TIMES_AT_BORDER = 3;

/**
 * Takes the cells off a lit area's edge that are darker, by more than `leastStops`, than the light further in leads to
 * expect by its slope and bend: cells that the edge cuts, and those that it blurs into. Levels in stops; NaN cells are
 * neither tried nor followed.
 */
export function peelSoftEdge(mask: CellMask, levels: Float64Array, leastStops: number): CellMask {
  const { columns, rows } = mask;
  const cells = mask.cells.slice();
  /** Goes inward from the first cell of a run of marked ones. */
  const peel = (start: number, inward: number, length: number, limit: number) => {
    const lacks = Float64Array.from(
      { length: Math.max(0, Math.min(DEEPEST_EDGE + BEND_CELLS, length - FEWEST_FOR_A_SLOPE)) },
      (_, k) => {
        const run = Math.min(RUN, length - k - 1);
        return continued(levels, start + (k + 1) * inward, inward, run) - levels[start + k * inward]!;
      },
    );
    const bend = Math.max(0, quantile(lacks.subarray(DEEPEST_EDGE), 0.5) || 0);
    let soft = -1;
    for (let k = 0; k < Math.min(DEEPEST_EDGE, lacks.length); k++) if (lacks[k]! - bend > limit) soft = k;
    for (let k = 0; k <= soft; k++) cells[start + k * inward] = 0;
  };
  const along = (start: number, stride: number, count: number) => {
    for (let first = 0; first < count; first++) {
      if (!mask.cells[start + first * stride]) continue;
      let after = first;
      while (after < count && mask.cells[start + after * stride]) after++;
      const limit = (end: number) => leastStops * (end === 0 || end === count ? TIMES_AT_BORDER : 1);
      peel(start + first * stride, stride, after - first, limit(first));
      peel(start + (after - 1) * stride, -stride, after - first, limit(after));
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
