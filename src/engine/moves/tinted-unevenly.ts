import type { MovesInput } from './moves-input.ts';

/** Whether the colour differs over the region by more than the tolerance, beyond the figure's own ±. */
export function isTintedUnevenly({
  measurement,
  tolerance,
}: Pick<MovesInput, 'measurement' | 'tolerance'>): boolean {
  const { spreadDeltaUv, plusMinusDeltaUv } = measurement.tint;
  return spreadDeltaUv - plusMinusDeltaUv > tolerance.tintDeltaUv;
}
