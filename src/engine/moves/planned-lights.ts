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
import { outcomeOf } from './outcome-of.ts';
import { pickedEvenly } from './picked-evenly.ts';
import { planLights } from './plan-lights.ts';
import { frameWidthMm, roomBoundsOfAll } from './room-bounds.ts';
import type { StoppedLight } from './stopped-lights.ts';

/** Sets that an outcome is told from. */
const TOLD_SETS = 24;

/** What changes leave: the spread, and the largest distance of colour from the mean, in u′v′. */
export interface Outcome {
  readonly spread: Estimate;
  readonly tintDeltaUv: number;
}

/** The moves of the lights, and what they are to leave, by hands that err. */
export interface PlannedLights extends Outcome {
  readonly moves: readonly Move[];
  /** By how much the spread narrows against what is changed besides alone. */
  readonly gain: Estimate;
  /** What is left with nothing but that changed, and no second sheet. */
  readonly without: Outcome;
  /** By how much a second sheet alone narrows the spread, in stops; 0 without one. */
  readonly sheetBringsEv: number;
}

/**
 * Plans the lights' moves over likely sets, the best first, and tells them in lengths that hands can set. `beside`:
 * what is changed at the set besides, at the same time. `stopped`: what is known of walls from earlier rounds. `spots`: few to search over, and those that spreads are told of.
 */
export function plannedLights(
  likely: readonly LitSet[],
  spots: { readonly searched: SpreadSpots; readonly told: SpreadSpots },
  setup: Setup,
  enoughEv: number,
  beside: Partial<SetChange> = {},
  stopped: readonly StoppedLight[] = [],
): PlannedLights {
  const sets = pickedEvenly(followingSets(likely, spots.told), TOLD_SETS);
  const asLeft = sets.map((set) => changedSet(set, { ...NOTHING_CHANGED, ...beside }));
  const [set] = asLeft as [LitSet];
  const plan = planLights(
    { sets: asLeft, spots: spots.searched, bounds: roomBoundsOfAll(asLeft, setup, stopped) },
    enoughEv,
  );
  const changes = plan.map((change, lamp) => asTold(change, set.lights[lamp]!.distance, setup.frameWidthMm));
  const nothing = changes.map(() => NO_CHANGE);
  // a second sheet is a move of its own, and has to be worth it too
  const singly = sets.map((each) => changedSet(each, { ...NOTHING_CHANGED, ...beside, isDoubled: false }));
  const without = outcomeOf(singly, spots.told).exactly(nothing);
  const outcome = outcomeOf(asLeft, spots.told);
  const evOf = (lights: readonly LightChange[]) => mean(outcome.exactly(lights).map(({ ev }) => ev));
  const before = evOf(nothing);
  const alone = (lamp: number, change: LightChange) =>
    before - evOf(changes.map((_, i) => (i === lamp ? change : NO_CHANGE)));
  const after = outcome.byHand(changes, frameWidthMm(set, setup));
  return {
    moves: movesOfPlan(changes, setup, alone),
    ...outcome.told(after),
    gain: outcome.estimate(after.map(({ ev }, i) => without[i]!.ev - ev)),
    without: outcome.told(without),
    sheetBringsEv: mean(without.map(({ ev }) => ev)) - before,
  };
}
