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
  /** Of the contours' labels, and of the sections' figures. */
  readonly fontSize: number;
  readonly smallFontSize: number;
}

/** Space between the map and its sections: wide enough for a handle that stands on the frame's edge. */
const GAP = 14;
const LEAST_WIDTH = 60;
/** Type beside text of 16 px. It grows with the reader's own text, as far as a map of this width bears it. */
const FONT_SIZE = 13;
const SMALL_FONT_SIZE = 12;
const USUAL_TEXT_PX = 16;
const WIDTH_FOR_USUAL_TEXT = 260;
/** A section is at least as deep as its longest figure is long, since one stands across each end. */
const FIGURE_LENGTH = 5.5;

/** The largest drawing of the whole frame that fits, with room for the sections; `textPx`: size of the text around it. */
export function mapLayout(
  { frame, region }: Reading,
  room: { width: number; height: number; textPx?: number },
): MapLayout {
  const aspect = frame.widthPx / frame.heightPx;
  const wanted = (room.textPx ?? USUAL_TEXT_PX) / USUAL_TEXT_PX;
  const enlarged = Math.max(1, Math.min(wanted, room.width / WIDTH_FOR_USUAL_TEXT));
  const smallFontSize = SMALL_FONT_SIZE * enlarged;
  const sectionDepth = Math.round(Math.max(room.width < 560 ? 72 : 136, FIGURE_LENGTH * smallFontSize));
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
    fontSize: FONT_SIZE * enlarged,
    smallFontSize,
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
