import type { Gradient, Measurement } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';
import { TEN_MIRED_DELTA_UV } from '../tolerances.ts';
import { LEAST_TOLD_EV } from './figures-in-words.ts';
import { limitStops } from './limit-stops.ts';
import { judgeEven } from './verdict.ts';

/**
 * Shares of the tolerance from which a cause is worth telling; own choice. In a frame that passes it takes half of
 * what is allowed: less is what makes the set good enough. Where the frame fails, causes of a third each may
 * together be why.
 */
const TOLD_WHERE_EVEN = 1 / 2;
const TOLD_WHERE_UNEVEN = 1 / 3;

/** Shares of the tolerance from which a fitted cause is told, and what frames cannot tell is worth a second one; own choices. */
export const LEAST_OF_CAUSE = 1 / 4;
export const LEAST_OF_DOUBT = 1 / 3;

/** A colour that all of the light has in common: hands balance white to less than this. Own choice. */
export const LEAST_IN_COMMON = 0.45;

/** The least fall in spread that a cause must explain to be told, in stops. */
export function leastToldEv({ falloff }: Pick<Measurement, 'falloff'>, tolerance: Tolerance): number {
  const share = judgeEven(falloff, tolerance) === 'yes' ? TOLD_WHERE_EVEN : TOLD_WHERE_UNEVEN;
  return Math.max(LEAST_TOLD_EV, share * limitStops(tolerance));
}

/** The least cast that is told, a distance in u′v′. */
export function leastToldCast({ castDeltaUv }: Tolerance): number {
  return TOLD_WHERE_UNEVEN * castDeltaUv;
}

/**
 * Whether the change of colour along the slope of the light is worth telling: beyond its ±, and either end, half of
 * it away from the mean, off by a third of the tolerance.
 */
export function slopeColourMatters({ mired, plusMinusMired }: Gradient, { tintDeltaUv }: Tolerance): boolean {
  if (mired === null || !(Math.abs(mired) > (plusMinusMired ?? 0))) return false;
  const endDeltaUv = (Math.abs(mired) / 2) * (TEN_MIRED_DELTA_UV / 10);
  return endDeltaUv > TOLD_WHERE_UNEVEN * tintDeltaUv;
}
