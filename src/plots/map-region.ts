import type { FrameRectangle } from '../engine/reading.ts';
import type { PlotPoint } from './plot-line.ts';

/** One of the eight places where a region is taken hold of; a side's handle moves one edge, a corner's two. */
export interface RegionHandle {
  readonly across: 'left' | 'right' | null;
  readonly down: 'top' | 'bottom' | null;
}

/** Clockwise from the top left corner. */
export const REGION_HANDLES: readonly RegionHandle[] = [
  { across: 'left', down: 'top' },
  { across: null, down: 'top' },
  { across: 'right', down: 'top' },
  { across: 'right', down: null },
  { across: 'right', down: 'bottom' },
  { across: null, down: 'bottom' },
  { across: 'left', down: 'bottom' },
  { across: 'left', down: null },
];

/** A region never gets narrower than this part of the frame by its handles. */
const LEAST_PART = 0.05;

/** The region with the handle's edges at a place across the frame (0 to 1), kept inside the frame and never inside out. */
export function regionWithHandleAt(
  region: FrameRectangle,
  { across, down }: RegionHandle,
  { x, y }: { x: number; y: number },
): FrameRectangle {
  let { left, top, right, bottom } = region;
  if (across === 'left') left = between(x, 0, right - LEAST_PART);
  if (across === 'right') right = between(x, left + LEAST_PART, 1);
  if (down === 'top') top = between(y, 0, bottom - LEAST_PART);
  if (down === 'bottom') bottom = between(y, top + LEAST_PART, 1);
  return { left, top, right, bottom };
}

/** Where a handle stands, across the frame. */
export function handlePlace(
  region: FrameRectangle,
  { across, down }: RegionHandle,
): { x: number; y: number } {
  return {
    x: across === null ? (region.left + region.right) / 2 : region[across],
    y: down === null ? (region.top + region.bottom) / 2 : region[down],
  };
}

/** Where the handles stand round the region's own drawing. */
export function handlesRound({ width, height }: { width: number; height: number }): readonly PlotPoint[] {
  const whole = { left: 0, top: 0, right: width, bottom: height };
  return REGION_HANDLES.map((handle) => {
    const { x, y } = handlePlace(whole, handle);
    return [x, y] as const;
  });
}

/** To a tenth of a percent, so that steps of a percent add up to whole ones. */
function between(value: number, least: number, most: number): number {
  return Math.round(Math.min(most, Math.max(least, value)) * 1000) / 1000;
}
