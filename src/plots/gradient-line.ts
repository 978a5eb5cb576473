import type { Gradient } from '../engine/reading.ts';
import { clipSegment } from './clip-segment.ts';
import type { PlotPoint } from './plot-line.ts';

/** The correction gradient's line, from its darker to its brighter end, as far as it lies in the drawing. */
export interface GradientLine {
  readonly from: PlotPoint;
  readonly to: PlotPoint;
}

/** For a gradient whose ends are given in drawing units; `null` where it has no direction or lies outside. */
export function gradientLine(
  { angleDeg, from, to }: Pick<Gradient, 'angleDeg' | 'from' | 'to'>,
  { width, height }: { width: number; height: number },
): GradientLine | null {
  if (angleDeg === null) return null;
  const inFrame = clipSegment([from.x, from.y], [to.x, to.y], width, height);
  return inFrame === null ? null : { from: inFrame[0], to: inFrame[1] };
}
