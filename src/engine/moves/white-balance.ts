import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/**
 * Takes out a cast that is the same all over, in the camera: the shift to apply is minus the cast. Nothing where
 * the cast is within tolerance or its ±, or too far from white for a colour temperature.
 */
export function whiteBalance({ measurement, tolerance }: MovesInput): Move | null {
  const { deltaUv, plusMinusDeltaUv, mired, duv } = measurement.cast;
  if (!(deltaUv > tolerance.castDeltaUv && deltaUv > plusMinusDeltaUv)) return null;
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
