import type { Gradient } from '../engine/reading.ts';

/** Half of the tenth in which light is told: a ramp of less is neither to be seen nor worth taking out. */
export const LEAST_SLOPE_EV = 0.05;

/** Whether a reading's light has a straight slope to speak of: beyond its own ± and not too small to be told. */
export function hasSlope({
  angleDeg,
  ev,
  plusMinusEv,
}: Pick<Gradient, 'angleDeg' | 'ev' | 'plusMinusEv'>): boolean {
  return angleDeg !== null && ev > plusMinusEv && ev >= LEAST_SLOPE_EV;
}
