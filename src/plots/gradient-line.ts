import type { Gradient } from '../engine/reading.ts';
import { clipSegment } from './clip-segment.ts';
import type { PlotPoint } from './plot-line.ts';

/** The correction gradient's line, from its darker to its brighter end, as far as it lies in the frame. */
export interface GradientLine {
  readonly from: PlotPoint;
  readonly to: PlotPoint;
}

/** In drawing units of a frame width × height; `null` where the gradient has no direction. */
export function gradientLine(gradient: Gradient, width: number, height: number): GradientLine | null {
  if (gradient.angleDeg === null) return null;
  const at = ({ x, y }: { x: number; y: number }): PlotPoint => [x * width, y * height];
  const inFrame = clipSegment(at(gradient.from), at(gradient.to), width, height);
  return inFrame === null ? null : { from: inFrame[0], to: inFrame[1] };
}
