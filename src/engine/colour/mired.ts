/**
 * Reciprocal megakelvin of a colour temperature. One step looks about alike anywhere on the scale.
 * Source: IES definition 4.6.4.3 (unit MK⁻¹).
 */
export function kelvinToMired(kelvin: number): number {
  return 1e6 / kelvin;
}

/** The inverse of {@link kelvinToMired}; 0 mired is an infinite temperature. */
export function miredToKelvin(mired: number): number {
  return 1e6 / mired;
}
