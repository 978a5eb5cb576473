import type { FramePoint, Reading } from '../engine/reading.ts';
import type { PlotPoint } from './plot-line.ts';

/** Sizes of the map and of the sections along its bottom and right edge, in drawing units. */
export interface MapLayout {
  /** The whole frame, and the region's place in it. */
  readonly frameWidth: number;
  readonly frameHeight: number;
  readonly left: number;
  readonly top: number;
  /** The region, which the cells fill. */
  readonly width: number;
  readonly height: number;
  readonly sectionDepth: number;
}

/** Space between the map and its sections: wide enough for a handle that stands on the frame's edge. */
const GAP = 14;
const LEAST_WIDTH = 60;

/** The largest drawing of the whole frame that fits, with room for the sections. */
export function mapLayout({ frame, region }: Reading, room: { width: number; height: number }): MapLayout {
  const aspect = frame.widthPx / frame.heightPx;
  const sectionDepth = room.width < 560 ? 72 : 136;
  const free = { width: room.width - sectionDepth - GAP, height: room.height - sectionDepth - GAP };
  const frameWidth = Math.max(LEAST_WIDTH, Math.floor(Math.min(free.width, free.height * aspect)));
  const frameHeight = Math.round(frameWidth / aspect);
  const left = Math.round(region.left * frameWidth);
  const top = Math.round(region.top * frameHeight);
  return {
    frameWidth,
    frameHeight,
    left,
    top,
    width: Math.max(1, Math.round(region.right * frameWidth) - left),
    height: Math.max(1, Math.round(region.bottom * frameHeight) - top),
    sectionDepth,
  };
}

/** The cell that a position in the region's drawing falls on. */
export function cellAtPlace(
  { grid }: Reading,
  { width, height }: Pick<MapLayout, 'width' | 'height'>,
  [x, y]: PlotPoint,
): { column: number; row: number } {
  return {
    column: Math.min(grid.columns - 1, Math.max(0, Math.floor((x / width) * grid.columns))),
    row: Math.min(grid.rows - 1, Math.max(0, Math.floor((y / height) * grid.rows))),
  };
}

/** Where a position across the whole frame lies in the drawing of its region. */
export function placeInDrawing(
  { region }: Reading,
  { width, height }: Pick<MapLayout, 'width' | 'height'>,
  at: FramePoint,
): PlotPoint {
  return [
    ((at.x - region.left) / (region.right - region.left)) * width,
    ((at.y - region.top) / (region.bottom - region.top)) * height,
  ];
}
