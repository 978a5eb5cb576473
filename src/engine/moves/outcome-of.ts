import { type Estimate, estimateOf } from '../lamps/estimate.ts';
import { asMade, SLIPS_PER_LIGHT } from '../lamps/hand-slips.ts';
import { changedSet, type LightChange, NOTHING_CHANGED } from '../lamps/light-change.ts';
import type { LitSet } from '../lamps/lit-set.ts';
import { type SetSpread, type SpreadSpots, spreadTaker } from '../lamps/set-spread.ts';
import { mean } from '../numeric/mean.ts';
import { seededRandom } from '../numeric/seeded-random.ts';

/** Spreads of likely sets after changes of their lights. */
export function outcomeOf(told: readonly LitSet[], spots: SpreadSpots) {
  const takers = told.map(() => spreadTaker(spots));
  const estimate = (after: readonly number[]): Estimate => {
    const middle = mean(after);
    return { value: middle, plusMinus: estimateOf([middle, ...after]).plusMinus };
  };
  return {
    estimate,
    /** The spread and the colour that such sets leave. */
    told: (after: readonly SetSpread[]) => ({
      spread: estimate(after.map(({ ev }) => ev)),
      tintDeltaUv: mean(after.map(({ deltaUv }) => deltaUv)),
    }),
    /** Set by set, made exactly. */
    exactly: (lights: readonly LightChange[]): SetSpread[] =>
      told.map((set, i) => takers[i]!(changedSet(set, { ...NOTHING_CHANGED, lights }))),
    /** Made by hands that err. */
    byHand(lights: readonly LightChange[], widthMm: number | null): SetSpread[] {
      const random = seededRandom(told.length);
      return told.map((set, i) => {
        const slips = Array.from({ length: SLIPS_PER_LIGHT * lights.length }, () => random.normal());
        const distances = set.lights.map(({ distance }) => distance);
        const made = asMade({ ...NOTHING_CHANGED, lights }, distances, widthMm, (k) => slips[k]!);
        return takers[i]!(changedSet(set, made));
      });
    },
  };
}
