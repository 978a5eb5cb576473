import type { Gradient } from '../reading.ts';

/** A direction that is less sure than this is not to be acted upon. */
const SURE_WITHIN_DEG = 30;

/** Whether a slope of the light is there beyond its ±, and its direction sure enough to act upon. */
export function isSureSlope({ angleDeg, ev, plusMinusEv, plusMinusDeg }: Gradient): boolean {
  return angleDeg !== null && ev > plusMinusEv && plusMinusDeg !== null && plusMinusDeg <= SURE_WITHIN_DEG;
}
