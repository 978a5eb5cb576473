import type { LinearFrame } from '../frame/linear-frame.ts';
import type { FrameRectangle } from '../reading.ts';
import { orientationTurnsSideways, type PixelRectangle, storedRectangle } from './upright-rectangle.ts';

/** The whole pixels, as stored, that a region of the upright frame covers. */
export function storedRegion(frame: LinearFrame, region: FrameRectangle): PixelRectangle {
  const sideways = orientationTurnsSideways(frame.orientation);
  const uprightWidthPx = sideways ? frame.heightPx : frame.widthPx;
  const uprightHeightPx = sideways ? frame.widthPx : frame.heightPx;
  const upright = {
    x0: Math.round(region.left * uprightWidthPx),
    y0: Math.round(region.top * uprightHeightPx),
    x1: Math.round(region.right * uprightWidthPx),
    y1: Math.round(region.bottom * uprightHeightPx),
  };
  return storedRectangle(upright, frame.orientation, frame.widthPx, frame.heightPx);
}
