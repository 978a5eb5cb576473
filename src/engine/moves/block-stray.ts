import { addedMired, slopeHasItsOwnColour } from './added-light.ts';
import { cautionForBlocking } from './cautions.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';
import { isSureSlope } from './sure-slope.ts';
import { isTintedUnevenly } from './tinted-unevenly.ts';

/** Two directions that lie so near each other are hardly so by chance: one in twelve. Own allowance. */
const SAME_DIRECTION_DEG = 15;

/** What room lights and windows lie off a lamp by at most: from 5500 K to 1700 K, and to a blue sky. Own allowance. */
const WARMEST_ROOM_MIRED = 400;
const COOLEST_ROOM_MIRED = -150;

/**
 * Puts a stray light out, where the frame alone tells that there is one and where it comes from: the tint is beyond
 * its tolerance, light and colour change along one line, the brighter end is the one that is off white (a dark and
 * tinted end may as well be a yellowed sheet), and what would have to be added there has the colour of a room's
 * light. Nothing where a second lamp or a panel's own parts may differ in colour.
 */
export function blockStray(input: MovesInput): Move | null {
  const { gradient, tintGradient, cast } = input.measurement;
  const { arrangement, light } = input.setup;
  if (arrangement === 'two-lamps' || arrangement === 'panel') return null;
  if (!isTintedUnevenly(input) || !slopeHasItsOwnColour(input) || !isSureSlope(gradient)) return null;
  const added = addedMired(gradient);
  if (added === null || added > WARMEST_ROOM_MIRED || added < COOLEST_ROOM_MIRED) return null;
  if (gradient.angleDeg === null || tintGradient.angleDeg === null) return null;
  const tintedSide = added > 0 ? tintGradient.angleDeg : tintGradient.angleDeg + 180;
  if (apartDeg(gradient.angleDeg, tintedSide) > SAME_DIRECTION_DEG) return null;
  const castMired = cast.mired ?? 0;
  if (!(Math.abs(castMired) > (cast.plusMinusMired ?? 0) && castMired * added > 0)) return null;
  return {
    ...{ kind: 'block-stray', fromDeg: gradient.angleDeg },
    ...{ bringsEv: null, toward: null, caution: cautionForBlocking(light) },
  };
}

function apartDeg(a: number, b: number): number {
  const turn = (((a - b) % 360) + 360) % 360;
  return Math.min(turn, 360 - turn);
}
