import type { Estimate } from '../lamps/estimate.ts';
import {
  changedSet,
  type LightChange,
  NO_CHANGE,
  NOTHING_CHANGED,
  type SetChange,
} from '../lamps/light-change.ts';
import type { LitSet } from '../lamps/lit-set.ts';
import type { SpreadSpots } from '../lamps/set-spread.ts';
import { mean } from '../numeric/mean.ts';
import type { Setup } from '../setup.ts';
import { followingSets } from './following-sets.ts';
import type { Move } from './move.ts';
import { asTold, movesOfPlan } from './moves-of-plan.ts';
import { outcomeOf, planLights } from './plan-lights.ts';
import { frameWidthMm, roomBounds } from './room-bounds.ts';

/** The moves of the lights, and what they are to leave. */
export interface PlannedLights {
  readonly moves: readonly Move[];
  /** Spread once they are made, by hands that err. */
  readonly spread: Estimate;
  /** Largest distance of colour from the mean then, in u′v′. */
  readonly tintDeltaUv: number;
  /** By how much the spread narrows. */
  readonly gain: Estimate;
}

/**
 * Plans the lights' moves over likely sets, the best first, and tells them in lengths that hands can set. `beside`:
 * what is changed at the set besides, at the same time.
 */
export function plannedLights(
  likely: readonly LitSet[],
  spots: SpreadSpots,
  setup: Setup,
  enoughEv: number,
  beside: Partial<SetChange> = {},
): PlannedLights {
  const sets = followingSets(likely, spots);
  const asLeft = sets.map((set) => changedSet(set, { ...NOTHING_CHANGED, ...beside }));
  const [set] = asLeft as [LitSet];
  const plan = planLights({ sets: asLeft, spots, bounds: roomBounds(set, setup) }, enoughEv);
  const changes = plan.map((change, lamp) => asTold(change, set.lights[lamp]!.distance, setup.frameWidthMm));
  const nothing = changes.map(() => NO_CHANGE);
  const present = outcomeOf(sets, spots)
    .exactly(nothing)
    .map(({ ev }) => ev);
  const outcome = outcomeOf(asLeft, spots);
  const evOf = (lights: readonly LightChange[]) => mean(outcome.exactly(lights).map(({ ev }) => ev));
  const before = evOf(nothing);
  const alone = (lamp: number, change: LightChange) =>
    before - evOf(changes.map((_, i) => (i === lamp ? change : NO_CHANGE)));
  const after = outcome.byHand(changes, frameWidthMm(set, setup));
  return {
    moves: movesOfPlan(changes, setup, alone),
    spread: outcome.estimate(after.map(({ ev }) => ev)),
    tintDeltaUv: mean(after.map(({ deltaUv }) => deltaUv)),
    gain: outcome.estimate(after.map(({ ev }, i) => present[i]! - ev)),
  };
}
