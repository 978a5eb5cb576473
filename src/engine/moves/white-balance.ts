import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';
import { isTintedUnevenly } from './tinted-unevenly.ts';

/**
 * Takes out a cast that is the same all over, in the camera: the shift to apply is minus the cast. Nothing where
 * the cast is within tolerance or its ±, or too far from white for a colour temperature; nor where the colour
 * differs over the frame and that is still to be cured: one shift would only carry the tint from one side to the other.
 */
export function whiteBalance(
  { measurement, tolerance }: MovesInput,
  { isTintToBeCured }: { readonly isTintToBeCured: boolean },
): Move | null {
  const { deltaUv, plusMinusDeltaUv, mired, duv } = measurement.cast;
  if (!(deltaUv > tolerance.castDeltaUv && deltaUv > plusMinusDeltaUv)) return null;
  if (isTintToBeCured && isTintedUnevenly({ measurement, tolerance })) return null;
  if (mired === null || duv === null) return null;
  return {
    kind: 'white-balance',
    miredShift: 0 - mired,
    duvShift: 0 - duv,
    bringsEv: null,
    toward: null,
    caution: null,
  };
}
