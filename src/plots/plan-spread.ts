import type { FoundLight } from '../engine/lamps/set-reading.ts';
import type { PlanProjection } from './plan-projection.ts';
import type { PlotPoint } from './plot-line.ts';

/** Where a light may well stand: an ellipse that reaches as far each way as the ± of that figure. */
export interface PlanSpread {
  readonly centre: PlotPoint;
  readonly radius: readonly [number, number];
  /** Turn of its first radius from "to the right", clockwise as SVG turns. */
  readonly turnDeg: number;
  /** Whether it reaches beyond what is drawn, and has to fade out there. */
  readonly isCut: boolean;
}

/** Thinner than this it would not be seen, in drawing units. */
const LEAST_RADIUS = 3;

/**
 * The spread of a light's place in a view: half-axes after the ± of its place and its distance, turned by how their
 * errors go together. From the side that is not known, and the ellipse stands upright.
 */
export function planSpread(
  { right, down, distance, rightWithDistance }: FoundLight,
  centre: PlotPoint,
  lampSide: 1 | -1,
  { seenFrom, unitsPerMm, width, height }: PlanProjection,
  frameWidthMm: number,
): PlanSpread {
  const units = frameWidthMm * unitsPerMm;
  const away = distance.plusMinus * units;
  const isAbove = seenFrom === 'above';
  const along = (isAbove ? right : down).plusMinus * units;
  const [x, y] = isAbove ? [along, away] : [away, along];
  // from above what is farther behind the surface lies higher up
  const together = isAbove ? -lampSide * rightWithDistance * x * y : 0;
  const [middle, half] = [(x * x + y * y) / 2, (x * x - y * y) / 2];
  const reach = Math.hypot(half, together);
  const [atX, atY] = centre;
  return {
    centre,
    radius: [
      Math.max(LEAST_RADIUS, Math.sqrt(middle + reach)),
      Math.max(LEAST_RADIUS, Math.sqrt(Math.max(0, middle - reach))),
    ],
    turnDeg: (Math.atan2(together, half) * 90) / Math.PI,
    isCut: x > Math.min(atX, width - atX) || y > Math.min(atY, height - atY),
  };
}
