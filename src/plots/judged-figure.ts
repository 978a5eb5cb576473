import type { Falloff } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';

/** A falloff as its yardstick measures it: 0 is perfectly even, more is worse. */
export interface JudgedFigure {
  readonly value: number;
  readonly plusMinus: number;
}

/**
 * The figure that a tolerance judges: stops for `range`, otherwise a share of 0 to 1 (of the centre for
 * `from-centre`, below the mean or the brightest point for the others, whose ratio is turned into what is missing).
 */
export function judgedFigure(falloff: Falloff, { measure }: Tolerance): JudgedFigure {
  if (measure === 'range') return { value: falloff.spreadEv, plusMinus: falloff.plusMinusEv };
  // A ratio q = 2^ev is uncertain by q × ln 2 × the ± in stops.
  const relative = Math.LN2 * falloff.plusMinusEv;
  if (measure === 'from-centre')
    return { value: falloff.fromCentreMax, plusMinus: (1 + falloff.fromCentreMax) * relative };
  const ratio = measure === 'min-over-mean' ? falloff.minOverMean : falloff.ninePointMinOverMax;
  return { value: 1 - ratio, plusMinus: ratio * relative };
}

/** Up to which figure the tolerance is met, in the same unit. */
export function judgedLimit({ measure, limit }: Tolerance): number {
  return measure === 'range' || measure === 'from-centre' ? limit : 1 - limit;
}
