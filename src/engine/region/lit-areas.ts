import {
  type CellMask,
  connectedAreas,
  eroded,
  forEachNeighbour,
  grownWithin,
  markedCells,
} from './cell-mask.ts';
import { convexFill } from './convex-fill.ts';
import type { LightSteps } from './light-steps.ts';

/** What is known of an area that steps of light enclose. */
export interface LitArea {
  /** Without dents: what small things in front of it cover counts as lit. */
  readonly mask: CellMask;
  /** Share of the steps at its edge at which it is the brighter side. */
  readonly brighterShare: number;
  /** Cells of its outline's convex hull that it does not fill, as a share of it. */
  readonly dentShare: number;
  /** Whether what lies outside is more than a clamp or a corner of something: large, or along a whole side. */
  readonly endsInFrame: boolean;
  /** Share of the frame's other cells that are dimmer than the area's nearest part. */
  readonly dimmerOutsideShare: number;
}

/** How much dimmer, in stops, counts as dimmer. */
const DIMMER_STOPS = 0.15;
/** Less than this share of the frame outside is a clamp or a stand, unless it runs along a whole side. */
const LEAST_OUTSIDE_SHARE = 0.02;
/** An edge that is missed here and there over this many cells still parts two areas. */
const MISSED_EDGE_CELLS = 1;

/** The areas of at least `leastCells` that steps of light part from the rest of the frame, largest first. */
export function litAreas(
  levels: Float64Array,
  columns: number,
  rows: number,
  { steps, barrier }: LightSteps,
  leastCells: number,
): LitArea[] {
  const free: CellMask = {
    columns,
    rows,
    cells: barrier.map((mark, i) => (mark || Number.isNaN(levels[i]!) ? 0 : 1)),
  };
  let inner = free;
  for (let k = 0; k < MISSED_EDGE_CELLS; k++) inner = eroded(inner);
  return connectedAreas(inner, leastCells / 2)
    .map((area) => {
      let whole = area;
      for (let k = 0; k < MISSED_EDGE_CELLS; k++) whole = grownWithin(whole, free);
      return whole;
    })
    .filter((area) => markedCells(area) >= leastCells)
    .map((area) => {
      let [brighter, darker] = [0, 0];
      for (const { bright, dark } of steps) {
        if (area.cells[bright] && !area.cells[dark]) brighter++;
        if (area.cells[dark] && !area.cells[bright]) darker++;
      }
      const mask = convexFill(area);
      const filled = markedCells(mask);
      return {
        mask,
        brighterShare: brighter / Math.max(1, brighter + darker),
        dentShare: (filled - markedCells(area)) / filled,
        endsInFrame: endsInFrame(mask),
        dimmerOutsideShare: dimmerOutsideShare(mask, area, levels),
      };
    });
}

function endsInFrame(mask: CellMask): boolean {
  const { columns, rows, cells } = mask;
  if (columns * rows - markedCells(mask) >= LEAST_OUTSIDE_SHARE * columns * rows) return true;
  const isEmpty = (start: number, stride: number, count: number) => {
    for (let k = 0; k < count; k++) if (cells[start + k * stride]) return false;
    return true;
  };
  const lastRow = (rows - 1) * columns;
  return (
    isEmpty(0, 1, columns) ||
    isEmpty(lastRow, 1, columns) ||
    isEmpty(0, columns, rows) ||
    isEmpty(columns - 1, columns, rows)
  );
}

/** Holds each cell outside against the cell of the area that lies nearest to it; NaN cells don't count. */
function dimmerOutsideShare(mask: CellMask, area: CellMask, levels: Float64Array): number {
  const nearest = new Int32Array(levels.length).fill(-1);
  const queue: number[] = [];
  for (let cell = 0; cell < levels.length; cell++) {
    if (!area.cells[cell]) continue;
    nearest[cell] = cell;
    queue.push(cell);
  }
  let [outside, dimmer] = [0, 0];
  for (let at = 0; at < queue.length; at++) {
    const cell = queue[at]!;
    const from = nearest[cell]!;
    if (!mask.cells[cell] && !Number.isNaN(levels[cell]!)) {
      outside++;
      if (levels[cell]! < levels[from]! - DIMMER_STOPS) dimmer++;
    }
    forEachNeighbour(area, cell, (neighbour) => {
      if (nearest[neighbour]! >= 0) return;
      nearest[neighbour] = from;
      queue.push(neighbour);
    });
  }
  return outside === 0 ? 0 : dimmer / outside;
}
