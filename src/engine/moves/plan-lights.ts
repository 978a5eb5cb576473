import { type Estimate, estimateOf } from '../lamps/estimate.ts';
import { asMade, SLIPS_PER_LIGHT } from '../lamps/hand-slips.ts';
import { changedSet, type LightChange, NOTHING_CHANGED } from '../lamps/light-change.ts';
import type { LitSet } from '../lamps/lit-set.ts';
import { type SetSpread, spreadTaker } from '../lamps/set-spread.ts';
import { mean } from '../numeric/mean.ts';
import { seededRandom } from '../numeric/seeded-random.ts';
import { evenestChange, type LightSearch } from './evenest-change.ts';
import { lightStarts } from './light-starts.ts';
import type { LightStep, StepOfLight } from './light-steps.ts';

/** Sets that a search goes by, and those that its outcome is told from. */
const SEARCHED_SETS = 6;
const TOLD_SETS = 24;

/** A step that brings less than this is not worth a walk to the light, in stops. Own choice. */
const LEAST_BROUGHT_EV = 0.012;

/**
 * The changes that bring the light to `enoughEv` with as few steps as it takes; where none does, those that leave it
 * evenest.
 */
export function planLights(search: LightSearch, enoughEv: number): LightChange[] {
  const { spots, bounds } = search;
  const sets = search.sets.slice(0, TOLD_SETS);
  const few = { ...search, sets: sets.slice(0, SEARCHED_SETS) };
  const { exactly } = outcomeOf(sets, spots);
  const expected = (changes: readonly LightChange[]) => cautious(exactly(changes).map(({ ev }) => ev));
  let steps = allSteps(sets[0]!.lights.length);
  const found = lightStarts(sets[0]!, bounds).map((start) => evenestChange(few, steps, start));
  let best = least(found, expected);
  let bestEv = expected(best);
  // as few steps as it takes: each that hardly matters is left out, and the others make good for it
  for (;;) {
    const without = steps.map((step) => {
      const changes = withoutStep(best, step);
      return { left: steps.filter((each) => each !== step), changes, ev: expected(changes) };
    });
    const next = without.toSorted((a, b) => a.ev - b.ev)[0];
    if (next === undefined) break;
    const changes =
      next.ev < bestEv + LEAST_BROUGHT_EV / 2 || next.left.length === 0
        ? next.changes
        : least([next.changes, evenestChange(few, next.left, next.changes)], expected);
    const ev = expected(changes);
    if (!(ev < bestEv + LEAST_BROUGHT_EV || ev < enoughEv)) break;
    [best, steps] = [changes, next.left];
    bestEv = Math.min(bestEv + LEAST_BROUGHT_EV / 4, Math.max(bestEv, ev));
  }
  return best;
}

/** What can be expected, and somewhat worse where that is unsure: half a standard deviation. Own choice. */
function cautious(after: readonly number[]): number {
  const middle = mean(after);
  const square = after.reduce((sum, value) => sum + (value - middle) ** 2, 0) / Math.max(1, after.length - 1);
  return middle + Math.sqrt(square) / 2;
}

/** Spreads of likely sets after changes of their lights. */
export function outcomeOf(sets: readonly LitSet[], spots: LightSearch['spots']) {
  const told = sets.slice(0, TOLD_SETS);
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

/** Power counts against the other light alone, so it is one light's. */
function allSteps(lights: number): StepOfLight[] {
  const each: readonly LightStep[] = ['slide', 'distance', 'turn'];
  const steps = Array.from({ length: lights }, (_, lamp) => each.map((step) => ({ lamp, step }))).flat();
  return lights < 2 ? steps : [...steps, { lamp: 1, step: 'power' }];
}

export function withoutStep(changes: readonly LightChange[], { lamp, step }: StepOfLight): LightChange[] {
  const none: Record<LightStep, Partial<LightChange>> = {
    slide: { right: 0, down: 0 },
    distance: { ratio: 1 },
    turn: { aimRight: 0, aimDown: 0 },
    power: { stops: 0 },
  };
  return changes.map((change, i) => (i === lamp ? { ...change, ...none[step] } : change));
}

function least<T>(candidates: readonly T[], of: (candidate: T) => number): T {
  return candidates.map((each) => [of(each), each] as const).toSorted(([a], [b]) => a - b)[0]![1];
}
