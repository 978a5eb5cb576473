import type { LitSet } from './lit-set.ts';
import { emptySampleLight, sampleLighter } from './sample-light.ts';

/** Spots over the region, its outermost cells among them, where spreads are compared. */
export interface SpreadSpots {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** The spread of a set's light over spots, in stops, and of its colour from the mean, in u′v′. */
export interface SetSpread {
  readonly ev: number;
  readonly deltaUv: number;
}

/** Works out sets' spreads over the same spots, again and again. */
export function spreadTaker(spots: SpreadSpots): (set: LitSet) => SetSpread {
  const count = spots.x.length;
  const lighter = sampleLighter(spots);
  const light = emptySampleLight(count);
  return (set) => {
    lighter(set, light);
    let [low, high, meanU, meanV] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, 0];
    for (let i = 0; i < count; i++) {
      low = Math.min(low, light.ev[i]!);
      high = Math.max(high, light.ev[i]!);
      meanU += light.uPrime[i]! / count;
      meanV += light.vPrime[i]! / count;
    }
    let deltaUv = 0;
    for (let i = 0; i < count; i++)
      deltaUv = Math.max(deltaUv, Math.hypot(light.uPrime[i]! - meanU, light.vPrime[i]! - meanV));
    return { ev: high - low, deltaUv };
  };
}
