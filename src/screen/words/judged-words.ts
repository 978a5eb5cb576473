import type { Falloff } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { judgedFigure, judgedLimit } from '../../plots/judged-figure.ts';
import { percent, plusMinusPercent, plusMinusStops, stops } from './figures.ts';
import { limitFigure, trimmed } from './tolerance-words.ts';

/** A figure may need so many decimals more before it prints apart from its limit. */
const MOST_MORE = 3;

/**
 * The decimals, from the fewest on, with which a figure prints on its own side of its limit: what misses 0.3 by a
 * hair may not read "0.3". A limit that is just met may print alike.
 */
export function digitsApart(figure: number, limit: number, fewest: number, isAtLeast = false): number {
  const isMet = (value: number) => (isAtLeast ? value >= limit : value <= limit);
  for (let digits = fewest; digits < fewest + MOST_MORE; digits++)
    if (isMet(Number(figure.toFixed(digits))) === isMet(figure)) return digits;
  return fewest + MOST_MORE;
}

/** What was found, and what was asked, in the terms and the unit of the yardstick. */
export interface FoundAndAsked {
  readonly found: string;
  /** As it was typed. */
  readonly asked: string;
  /** Whether the two lie so close that the usual decimals would print them alike. */
  readonly isNear: boolean;
}

export function foundAndAsked(falloff: Omit<Falloff, 'evMap'>, tolerance: Tolerance): FoundAndAsked {
  const { measure } = tolerance;
  const limit = limitFigure(tolerance);
  if (measure === 'range') {
    const digits = digitsApart(falloff.spreadEv, Number(limit), 1);
    return { found: stops(falloff.spreadEv, digits), asked: limit, isNear: digits > 1 };
  }
  const share = {
    'from-centre': falloff.fromCentreMax,
    'min-over-mean': falloff.minOverMean,
    'nine-point-min-max': falloff.ninePointMinOverMax,
  }[measure];
  const digits = digitsApart(share * 100, Number(limit), 0, measure !== 'from-centre');
  return { found: percent(share, digits), asked: `${limit}\u00a0%`, isNear: digits > 0 };
}

/** The ± of {@link foundAndAsked}, in the same unit; `null` for a lower bound, which has none. */
export function judgedPlusMinus(falloff: Falloff, tolerance: Tolerance): string | null {
  if (falloff.isLowerBound) return null;
  const { plusMinus } = judgedFigure(falloff, tolerance);
  return tolerance.measure === 'range' ? plusMinusStops(plusMinus) : plusMinusPercent(plusMinus);
}

/** A figure on the takes' line, where more is worse, told apart from the limit there; without its ±. */
export function figureOnLine(value: number, tolerance: Tolerance): { text: string; digits: number } {
  const limit = Number(limitOnLine(tolerance));
  if (tolerance.measure === 'range') {
    const digits = digitsApart(value, limit, 1);
    return { text: value.toFixed(digits), digits };
  }
  const digits = digitsApart(value * 100, limit, 0);
  return { text: percent(value, digits), digits };
}

/** The limit on the takes' line, in stops or percent, as it was typed. */
export function limitOnLine(tolerance: Tolerance): string {
  const limit = judgedLimit(tolerance);
  return tolerance.measure === 'range' ? limitFigure(tolerance) : trimmed(limit * 100, 2);
}
