import type { CellGrid } from '../grid/cell-grid.ts';
import type { Falloff, Judgement, Measurement, Verdict } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';
import { CLIPPED_SHARE_BORNE } from './clipped.ts';
import { darkness } from './too-dark.ts';

/**
 * Judges a measurement: "too-close-to-say" wherever the limit lies inside the figure's ±. The grid tells whether
 * the exposure leaves figures fine enough for the tolerance.
 */
export function judge(measurement: Measurement, tolerance: Tolerance, grid: CellGrid): Verdict {
  const { tint, cast } = measurement;
  return {
    even: judgeEven(measurement.falloff, tolerance),
    neutral: both(
      below(tint.spreadDeltaUv, tint.plusMinusDeltaUv, tolerance.tintDeltaUv),
      below(cast.deltaUv, cast.plusMinusDeltaUv, tolerance.castDeltaUv),
    ),
    exposed: judgeExposed(measurement, tolerance, grid),
  };
}

/** Whether the light is even enough; what clipping hides can only make it worse. */
export function judgeEven(falloff: Falloff, tolerance: Tolerance): Judgement {
  const judged = judgeMeasure(falloff, tolerance);
  // Clipping hides part of the falloff: what passes so far may still fail.
  return falloff.isLowerBound && judged === 'yes' ? 'too-close-to-say' : judged;
}

function judgeMeasure(falloff: Falloff, { measure, limit }: Tolerance): Judgement {
  if (measure === 'range') return below(falloff.spreadEv, falloff.plusMinusEv, limit);
  // A ratio of two levels q = 2^ev is uncertain by q × ln 2 × its ± in stops.
  const relative = Math.LN2 * falloff.plusMinusEv;
  if (measure === 'from-centre')
    return below(falloff.fromCentreMax, (1 + falloff.fromCentreMax) * relative, limit);
  const ratio = measure === 'min-over-mean' ? falloff.minOverMean : falloff.ninePointMinOverMax;
  return below(-ratio, ratio * relative, -limit);
}

function judgeExposed(measurement: Measurement, tolerance: Tolerance, grid: CellGrid): Judgement {
  if (measurement.clipping.highlightShare > CLIPPED_SHARE_BORNE) return 'no';
  const { excess, plusMinus, blocked } = darkness({ measurement, tolerance, grid });
  const lit: Judgement = blocked ? 'no' : below(excess, plusMinus, 0);
  return both(lit, measurement.falloff.isLowerBound ? 'too-close-to-say' : 'yes');
}

/** Whether a figure stays below its limit; too close to say where the limit lies inside the ±. */
export function below(figure: number, plusMinus: number, limit: number): Judgement {
  if (figure + plusMinus <= limit) return 'yes';
  return figure - plusMinus > limit ? 'no' : 'too-close-to-say';
}

function both(a: Judgement, b: Judgement): Judgement {
  if (a === 'no' || b === 'no') return 'no';
  return a === 'yes' && b === 'yes' ? 'yes' : 'too-close-to-say';
}
