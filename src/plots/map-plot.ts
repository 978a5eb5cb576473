import type { FrameRectangle, Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { arrowHead } from './arrow-head.ts';
import { type CellMap, cellMap } from './cell-map.ts';
import { cellsPath } from './cells-path.ts';
import { clearOfLabels } from './clear-of-labels.ts';
import { type ContourPlot, contourPlot } from './contour-plot.ts';
import type { DrawnInSteps } from './drawn-in-steps.ts';
import { falloffPicture, type MapPicture } from './falloff-picture.ts';
import { gradientLine } from './gradient-line.ts';
import { linePath } from './line-path.ts';
import { mapLines } from './map-lines.ts';
import { handlesRound } from './map-region.ts';
import type { OrientedBox } from './oriented-box.ts';
import type { PlotLine, PlotPoint } from './plot-line.ts';
import { tintDistanceMap } from './tint-distance-map.ts';
import { tintPicture } from './tint-picture.ts';
import { toleranceLevels } from './tolerance-levels.ts';

/** Everything drawn over one map, in drawing units. */
export interface MapPlot {
  readonly picture: MapPicture;
  readonly contours: ContourPlot;
  /** SVG path data of the rectangle of the largest crop that passes; empty for none. */
  readonly cropPath: string;
  /** SVG path data of the correction gradient's line, and of the arrowhead at its brighter end; empty for none. */
  readonly gradientPath: string;
  readonly gradientHeadPath: string;
  /** SVG path data, by the even-odd rule, of all but the labels: lines over the contours are clipped to it. */
  readonly clearPath: string;
  /** Where the light is brightest; `null` on a map of tint. */
  readonly hottest: PlotPoint | null;
  /** SVG path data of the cells to be hatched: clipped, or not measured at all; empty for none. */
  readonly hatchedPath: string;
  /** SVG path data of the cells that are below 0 on a map of differences; left out elsewhere. */
  readonly lowerPath?: string;
}

export interface DrawingSize {
  readonly width: number;
  readonly height: number;
  readonly fontSize: number;
}

/** The falloff in greys under contours of stops, the tolerance's marked. */
export function* falloffPlot(
  reading: Reading,
  tolerance: Tolerance,
  size: DrawingSize,
  clippedShare: Float64Array,
  linesOf = mapLines,
): DrawnInSteps<MapPlot> {
  const map = cellMap(reading.grid, reading.falloff.evMap);
  const levels = toleranceLevels(reading, tolerance);
  const { hottest, crop, ramp } = marks(reading, size);
  const wanted = {
    ...size,
    unit: 0.1,
    toleranceLevels: levels,
    labelOf: (level: number) => `−${shortest(Math.abs(level), 1)}`,
    keepClear: [...handleBoxes(size), crossBox(hottest)],
    marks: [...(crop === null ? [] : [crop]), ...(ramp === null ? [] : [[ramp.from, ramp.to] as const])],
  };
  const contours = yield* contourPlot(map, wanted, linesOf);
  const limitEv = Math.max(0, ...levels.map((ev) => -ev));
  return {
    picture: falloffPicture(map, limitEv),
    contours,
    hatchedPath: hatched(map, clippedShare, size),
    hottest,
    cropPath: crop === null ? '' : linePath([crop]),
    gradientPath: ramp === null ? '' : linePath([[ramp.from, ramp.to]]),
    gradientHeadPath: ramp === null ? '' : arrowHead(ramp.from, ramp.to, HEAD_SIZE),
    clearPath: clearOfLabels(contours.labels, size),
  };
}

/** The tint in its own direction under contours of Δu′v′ from the mean, the tolerance's marked. */
export function* tintPlot(
  reading: Reading,
  tolerance: Tolerance,
  size: DrawingSize,
  clippedShare: Float64Array,
  linesOf = mapLines,
): DrawnInSteps<MapPlot> {
  const map = tintDistanceMap(reading);
  const wanted = {
    ...size,
    unit: 0.001,
    toleranceLevels: [tolerance.tintDeltaUv],
    labelOf: (level: number) => shortest(level, 3),
    keepClear: handleBoxes(size),
  };
  const contours = yield* contourPlot(map, wanted, linesOf);
  const picture = tintPicture(reading, tolerance.tintDeltaUv);
  const hatchedPath = hatched(map, clippedShare, size);
  const clearPath = clearOfLabels(contours.labels, size);
  const noMarks = { cropPath: '', gradientPath: '', gradientHeadPath: '', hottest: null };
  return { picture, contours, hatchedPath, clearPath, ...noMarks };
}

/** Room that a handle of the region, and the cross at the hottest spot, take up. */
const HANDLE_SIZE = 26;
const CROSS_SIZE = 18;
const HEAD_SIZE = 12;

function handleBoxes(size: DrawingSize): OrientedBox[] {
  return handlesRound(size).map(([x, y]) => ({
    x,
    y,
    width: HANDLE_SIZE,
    height: HANDLE_SIZE,
    angleDeg: 0,
  }));
}

function crossBox([x, y]: PlotPoint): OrientedBox {
  return { x, y, width: CROSS_SIZE, height: CROSS_SIZE, angleDeg: 0 };
}

/** A cell is hatched from this share of clipped pixels on: fewer are the odd sparkle. */
export const CLIPPED_TO_SPEAK_OF = 0.02;

function hatched(map: CellMap, clippedShare: Float64Array, size: DrawingSize): string {
  return cellsPath(map, (i) => Number.isNaN(map.values[i]!) || clippedShare[i]! >= CLIPPED_TO_SPEAK_OF, size);
}

/** A level in so many decimals, and one more where it does not lie on them: a limit of 0.07 is not 0.1. */
export function shortest(level: number, digits: number): string {
  const isOnThem = Math.abs(level - Number(level.toFixed(digits))) < 10 ** -digits / 20;
  return level.toFixed(isOnThem ? digits : digits + 1);
}

function marks(reading: Reading, size: DrawingSize) {
  const { region, within, gradient, falloff } = reading;
  const across = (x: number) => ((x - region.left) / (region.right - region.left)) * size.width;
  const down = (y: number) => ((y - region.top) / (region.bottom - region.top)) * size.height;
  const { brightestAt } = falloff;
  const ramp = gradientLine(
    {
      ...gradient,
      from: { x: across(gradient.from.x), y: down(gradient.from.y) },
      to: { x: across(gradient.to.x), y: down(gradient.to.y) },
    },
    { ...size, edgeRoom: HANDLE_SIZE / 2 + 1 },
  );
  return {
    crop: within.crop === null ? null : outline(within.crop, across, down),
    ramp,
    hottest: [across(brightestAt.x), down(brightestAt.y)] as const,
  };
}

function outline(
  { left, top, right, bottom }: FrameRectangle,
  across: (x: number) => number,
  down: (y: number) => number,
): PlotLine {
  const corner: PlotPoint = [across(left), down(top)];
  return [
    corner,
    [across(right), down(top)],
    [across(right), down(bottom)],
    [across(left), down(bottom)],
    corner,
  ];
}
