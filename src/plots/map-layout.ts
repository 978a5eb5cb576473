import type { FramePoint, Reading } from '../engine/reading.ts';
import type { PlotPoint } from './plot-line.ts';

/** Sizes of the map and of the sections along its bottom and right edge, in drawing units. */
export interface MapLayout {
  readonly width: number;
  readonly height: number;
  readonly sectionDepth: number;
}

const GAP = 8;

/** The largest drawing of the region that fits, in the region's own shape, with room for the sections. */
export function mapLayout({ frame, region }: Reading, room: { width: number; height: number }): MapLayout {
  const aspect =
    ((region.right - region.left) * frame.widthPx) / ((region.bottom - region.top) * frame.heightPx);
  const sectionDepth = room.width < 560 ? 80 : 112;
  const free = { width: room.width - sectionDepth - GAP, height: room.height - sectionDepth - GAP };
  const width = Math.max(60, Math.floor(Math.min(free.width, free.height * aspect)));
  return { width, height: Math.round(width / aspect), sectionDepth };
}

/** The cell (with fraction) that a position in the drawing falls on. */
export function cellAtPlace(
  { grid }: Reading,
  { width, height }: MapLayout,
  [x, y]: PlotPoint,
): { column: number; row: number } {
  return {
    column: Math.min(grid.columns - 1, Math.max(0, Math.floor((x / width) * grid.columns))),
    row: Math.min(grid.rows - 1, Math.max(0, Math.floor((y / height) * grid.rows))),
  };
}

/** Where a position across the whole frame lies in the drawing of its region. */
export function placeInDrawing({ region }: Reading, { width, height }: MapLayout, at: FramePoint): PlotPoint {
  return [
    ((at.x - region.left) / (region.right - region.left)) * width,
    ((at.y - region.top) / (region.bottom - region.top)) * height,
  ];
}
