import type { FrameRectangle, Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { arrowHead } from './arrow-head.ts';
import { cellMap } from './cell-map.ts';
import { type ContourPlot, contourPlot } from './contour-plot.ts';
import { falloffPicture, type MapPicture } from './falloff-picture.ts';
import { gradientLine } from './gradient-line.ts';
import { linePath } from './line-path.ts';
import type { PlotPoint } from './plot-line.ts';
import { tintDistanceMap } from './tint-distance-map.ts';
import { tintPicture } from './tint-picture.ts';
import { toleranceLevels } from './tolerance-levels.ts';

/** Everything drawn over one map, in drawing units. */
export interface MapPlot {
  readonly picture: MapPicture;
  readonly contours: ContourPlot;
  /** SVG path data of the rectangle of the largest crop that passes; empty for none. */
  readonly cropPath: string;
  /** SVG path data of the correction gradient as an arrow to its brighter end; empty for none. */
  readonly gradientPath: string;
  /** Where the light is brightest; `null` on a map of tint. */
  readonly hottest: PlotPoint | null;
}

export interface DrawingSize {
  readonly width: number;
  readonly height: number;
  readonly fontSize: number;
}

/** The falloff in greys under contours of stops, the tolerance's marked. */
export function falloffPlot(reading: Reading, tolerance: Tolerance, size: DrawingSize): MapPlot {
  const map = cellMap(reading.grid, reading.falloff.evMap);
  const levels = toleranceLevels(reading, tolerance);
  const contours = contourPlot(map, {
    ...size,
    unit: 0.1,
    toleranceLevels: levels,
    labelOf: (level) => `−${Math.abs(level).toFixed(1)}`,
  });
  const limitEv = Math.max(0, ...levels.map((ev) => -ev));
  return { picture: falloffPicture(map, limitEv), contours, ...marks(reading, size) };
}

/** The tint in its own direction under contours of Δu′v′ from the mean, the tolerance's marked. */
export function tintPlot(reading: Reading, tolerance: Tolerance, size: DrawingSize): MapPlot {
  const contours = contourPlot(tintDistanceMap(reading), {
    ...size,
    unit: 0.001,
    toleranceLevels: [tolerance.tintDeltaUv],
    labelOf: (level) => level.toFixed(3),
  });
  const picture = tintPicture(reading, tolerance.tintDeltaUv);
  return { picture, contours, cropPath: '', gradientPath: '', hottest: null };
}

function marks(reading: Reading, { width, height }: DrawingSize) {
  const { region, within, gradient, falloff } = reading;
  const across = (x: number) => ((x - region.left) / (region.right - region.left)) * width;
  const down = (y: number) => ((y - region.top) / (region.bottom - region.top)) * height;
  const { brightestAt } = falloff;
  const line = gradientLine(
    {
      ...gradient,
      from: { x: across(gradient.from.x), y: down(gradient.from.y) },
      to: { x: across(gradient.to.x), y: down(gradient.to.y) },
    },
    { width, height },
  );
  return {
    cropPath: within.crop === null ? '' : rectanglePath(within.crop, across, down),
    gradientPath: line === null ? '' : linePath([[line.from, line.to]]) + arrowHead(line.from, line.to, 12),
    hottest: [across(brightestAt.x), down(brightestAt.y)] as const,
  };
}

function rectanglePath(
  { left, top, right, bottom }: FrameRectangle,
  across: (x: number) => number,
  down: (y: number) => number,
): string {
  const corners: PlotPoint[] = [
    [across(left), down(top)],
    [across(right), down(top)],
    [across(right), down(bottom)],
    [across(left), down(bottom)],
  ];
  return `${linePath([corners])}Z`;
}
