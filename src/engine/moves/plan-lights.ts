import type { LightChange } from '../lamps/light-change.ts';
import { mean } from '../numeric/mean.ts';
import { evenestChange, FINELY, type LightSearch, ROUGHLY } from './evenest-change.ts';
import { lightStarts } from './light-starts.ts';
import type { LightStep, StepOfLight } from './light-steps.ts';
import { outcomeOf } from './outcome-of.ts';
import { pickedEvenly } from './picked-evenly.ts';

/** Sets that a search goes by. */
const SEARCHED_SETS = 6;

/** Of the starts so many, the first, differ in more than where lights aim. */
const AIMED_ALIKE = 2;

/** A step that brings less than this is not worth a walk to the light, in stops. Own choice. */
const LEAST_BROUGHT_EV = 0.012;

/**
 * The changes that bring the light to `enoughEv` with as few steps as it takes; where none does, those that leave it
 * evenest.
 */
export function planLights(search: LightSearch, enoughEv: number): LightChange[] {
  const { sets, spots, bounds } = search;
  const few = { ...search, sets: pickedEvenly(sets, SEARCHED_SETS) };
  const { exactly } = outcomeOf(sets, spots);
  const expected = (changes: readonly LightChange[]) => cautious(exactly(changes).map(({ ev }) => ev));
  const all = allSteps(sets[0]!.lights.length);
  // which way to begin is told by a rough search from each start; turning promises most where beams are least known
  const starts = lightStarts(sets[0]!, bounds);
  const found = [all, all.filter(({ step }) => step !== 'turn')].map((steps, way) => {
    const rough = starts.slice(0, way === 0 ? starts.length : AIMED_ALIKE);
    const changes = rough.map((start) => evenestChange(few, steps, start, ROUGHLY));
    return { steps, changes: evenestChange(few, steps, least(changes, expected), FINELY) };
  });
  let { steps, changes: best } = least(found, ({ changes }) => expected(changes));
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
