import type { LitSet } from '../lamps/lit-set.ts';
import { emptySampleLight, sampleLighter } from '../lamps/sample-light.ts';
import type { SpreadSpots } from '../lamps/set-spread.ts';

/** A set that departs from the best by more than this over the frame, root mean square, does not show what was seen. */
const CLOSE_EV = 0.03;
const FEWEST = 10;

/**
 * Of likely sets, those that show the frame: where figures trade against each other far from the best, a straight
 * valley leads away from what was seen, and sets drawn from it promise what is not there. The best stays first.
 */
export function followingSets(sets: readonly LitSet[], spots: SpreadSpots): LitSet[] {
  const lighter = sampleLighter(spots);
  const lights = sets.map((set) => {
    const light = emptySampleLight(spots.x.length);
    lighter(set, light);
    return light.ev;
  });
  const offEv = lights.map((ev) => deviation(ev.map((value, i) => value - lights[0]![i]!)));
  const sorted = offEv.toSorted((a, b) => a - b);
  const most = Math.max(CLOSE_EV, sorted[Math.min(FEWEST, sorted.length) - 1]!);
  return sets.filter((_, i) => offEv[i]! <= most);
}

function deviation(values: Float64Array): number {
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / values.length);
}
