import type { Gradient } from '../engine/reading.ts';
import { clipSegment } from './clip-segment.ts';
import { hasSlope } from './has-slope.ts';
import type { PlotPoint } from './plot-line.ts';

/** The correction gradient's line, from its darker to its brighter end, as far as it lies in the drawing. */
export interface GradientLine {
  readonly from: PlotPoint;
  readonly to: PlotPoint;
}

/**
 * For a gradient whose ends are given in drawing units; `null` where it is no slope to speak of or lies outside. It ends
 * `edgeRoom` short of the drawing's edge, so that the whole of an arrowhead is seen.
 */
export function gradientLine(
  gradient: Pick<Gradient, 'angleDeg' | 'ev' | 'plusMinusEv' | 'from' | 'to'>,
  { width, height, edgeRoom }: { width: number; height: number; edgeRoom: number },
): GradientLine | null {
  if (!hasSlope(gradient)) return null;
  const { from, to } = gradient;
  const inFrame = clipSegment(
    [from.x - edgeRoom, from.y - edgeRoom],
    [to.x - edgeRoom, to.y - edgeRoom],
    width - 2 * edgeRoom,
    height - 2 * edgeRoom,
  );
  if (inFrame === null) return null;
  const [start, end] = inFrame.map(([x, y]) => [x + edgeRoom, y + edgeRoom] as const);
  return { from: start!, to: end! };
}
