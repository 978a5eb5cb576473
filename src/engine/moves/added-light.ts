import { slopeColourMatters } from '../diagnosis/worth-telling.ts';
import type { Gradient } from '../reading.ts';
import type { MovesInput } from './moves-input.ts';

/** A light that differs less than this from the lamp's might be the lamp itself, in mired. Own allowance. */
const LEAST_APART_MIRED = 50;

/**
 * Whether the slope of a one-lamp set is not, or not for sure, that of the lamp's place. Moving a lamp changes its
 * light's level and not its colour: where the colour changes so strongly along the slope that only a second light,
 * or a tinted sheet, can be behind it, where the lamp stands cannot be told from it. Two lamps may differ in colour
 * themselves, and tell nothing.
 */
export function slopeHasItsOwnColour({ measurement, setup, tolerance }: MovesInput): boolean {
  if (setup.arrangement === 'two-lamps') return false;
  const { gradient } = measurement;
  return slopeColourMatters(gradient, tolerance) && Math.abs(addedMired(gradient) ?? 0) >= LEAST_APART_MIRED;
}

/**
 * How far in mired from the light at the darker end a light would lie which, added at the brighter end alone, makes
 * the slope and its change of colour; rather too near than too far by their ±. `null` where there is no colour.
 *
 * Mired of a mixture are taken to go by its shares of light, which is right to a tenth over 150 mired.
 */
export function addedMired({ ev, mired, plusMinusEv, plusMinusMired }: Gradient): number | null {
  if (mired === null) return null;
  const share = 1 - 2 ** -(ev + plusMinusEv); // of the brighter end's light
  const sure = Math.max(0, Math.abs(mired) - (plusMinusMired ?? 0));
  return (Math.sign(mired) * sure) / share;
}
