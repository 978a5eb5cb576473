/** Where a change of warmth is told in kelvin: most flash heads and daylight lie near it. */
export const TOLD_AT_KELVIN = 5500;

/** Cooler than this there is no colour temperature to speak of. */
const COOLEST_KELVIN = 25_000;

/** From here on kelvin are told in tens. */
const TENS_FROM_KELVIN = 9.5;

/**
 * What a change in mired (positive is warmer) comes to in kelvin at {@link TOLD_AT_KELVIN}, without its sign: to the
 * nearest ten, a whole one below that, at least 1. `null` where no colour temperature lies that far off.
 */
export function kelvinAside(mired: number): number | null {
  const reciprocal = 1e6 / TOLD_AT_KELVIN + mired;
  if (reciprocal < 1e6 / COOLEST_KELVIN) return null;
  const kelvin = Math.abs(1e6 / reciprocal - TOLD_AT_KELVIN);
  return kelvin < TENS_FROM_KELVIN ? Math.max(1, Math.round(kelvin)) : Math.round(kelvin / 10) * 10;
}
