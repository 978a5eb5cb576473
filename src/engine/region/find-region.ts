import type { LinearFrame } from '../frame/linear-frame.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { type FrameRectangle, WHOLE_FRAME } from '../reading.ts';
import { cellLevels } from './cell-levels.ts';
import { type CellRectangle, largestRectangle } from './largest-rectangle.ts';
import { levelNoise } from './level-noise.ts';
import { lightSteps } from './light-steps.ts';
import { type LitArea, litAreas } from './lit-areas.ts';
import { peelSoftEdge } from './peel-soft-edge.ts';

/** The part of the frame to read. */
export interface FoundRegion {
  /** Exactly 0, 0, 1, 1 unless a part was found. */
  readonly region: FrameRectangle;
  readonly found: boolean;
  /** One sentence for the screen; empty where the light fills the frame. */
  readonly says: string;
}

/** Fewer cells than this along the longer side show no edge: one cell would be a large part of the sheet. */
const FEWEST_CELLS_ALONG = 24;
/** Falloff of light alone left at most 0.47 unexplained over a few cells, in 800 fields of 3 stops, some clipped. */
const LEAST_STEP_STOPS = 0.5;
const LEAST_STEP_NOISE = 8;
/** A part must hold about a sixth of the frame, or it is something in the frame rather than what is photographed. */
const LEAST_SHARE = 0.15;
const LEAST_BRIGHTER_SHARE = 0.9;
const LEAST_DIMMER_OUTSIDE_SHARE = 0.9;
/** A sheet bulges nowhere inwards; a background does, where a subject stands before it. Room for a hanger. */
const LARGEST_DENT_SHARE = 0.05;
/** Departure from the light further in by which a cell at the edge belongs to the edge. */
const LEAST_SOFT_STOPS = 0.02;
const LEAST_SOFT_NOISE = 4;
/** Kept clear of the outermost cells whose light the edge leaves alone. */
const INSET_CELLS = 1;

const PART = 'The lit sheet covers part of the frame; read inside it.';
const UNSURE =
  'The sheet can’t be told from what surrounds it (something there is as bright, or it fills under a sixth of the frame), so the whole frame was read; choose the part to read.';

/**
 * Decides from cells of the whole frame whether the lit background fills it. Where edges (steps of light that no
 * falloff makes) enclose a convex area that is brighter than all around it, the largest upright rectangle inside it is
 * returned, kept clear of the edge; in doubt the whole frame.
 */
export function findRegion(grid: CellGrid, frame: LinearFrame): FoundRegion {
  const { columns, rows } = grid;
  const whole: FoundRegion = { region: WHOLE_FRAME, found: false, says: '' };
  if (Math.max(columns, rows) < FEWEST_CELLS_ALONG) return whole;
  const levels = cellLevels(grid, frame);
  const noise = levelNoise(levels, columns);
  const edges = lightSteps(levels, columns, rows, Math.max(LEAST_STEP_STOPS, LEAST_STEP_NOISE * noise));
  if (edges.steps.length === 0) return whole;
  const leastCells = LEAST_SHARE * columns * rows;
  const areas = litAreas(levels, columns, rows, edges, leastCells).filter(isEnclosed);
  const leastSoft = Math.max(LEAST_SOFT_STOPS, LEAST_SOFT_NOISE * noise);
  let best: CellRectangle | null = null;
  for (const area of areas.filter(isLitSheet)) {
    const rectangle = largestRectangle(peelSoftEdge(area.mask, levels, leastSoft));
    if (rectangle && cellsIn(rectangle) > (best ? cellsIn(best) : leastCells)) best = rectangle;
  }
  if (best) return { region: insetRegion(best, columns, rows), found: true, says: PART };
  return areas.length > 0 ? { ...whole, says: UNSURE } : whole;
}

const isEnclosed = ({ dentShare, endsInFrame }: LitArea) => dentShare <= LARGEST_DENT_SHARE && endsInFrame;

const isLitSheet = ({ brighterShare, dimmerOutsideShare }: LitArea) =>
  brighterShare >= LEAST_BRIGHTER_SHARE && dimmerOutsideShare >= LEAST_DIMMER_OUTSIDE_SHARE;

const cellsIn = ({ left, top, right, bottom }: CellRectangle) => (right - left) * (bottom - top);

/** The rectangle as part of the frame, drawn in on the sides where the sheet ends, not where the frame does. */
function insetRegion(
  { left, top, right, bottom }: CellRectangle,
  columns: number,
  rows: number,
): FrameRectangle {
  return {
    left: left === 0 ? 0 : (left + INSET_CELLS) / columns,
    top: top === 0 ? 0 : (top + INSET_CELLS) / rows,
    right: right === columns ? 1 : (right - INSET_CELLS) / columns,
    bottom: bottom === rows ? 1 : (bottom - INSET_CELLS) / rows,
  };
}
