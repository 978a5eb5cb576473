import { changedSet, type LightChange, NOTHING_CHANGED, type SetChange } from '../lamps/light-change.ts';
import type { LitSet } from '../lamps/lit-set.ts';
import { emptySampleLight, type SampleLighter, sampleLighter } from '../lamps/sample-light.ts';
import type { SpreadSpots } from '../lamps/set-spread.ts';
import { leastSquares } from '../numeric/least-squares.ts';
import { mean } from '../numeric/mean.ts';
import { changesOf, figureCount, numbersOf, type StepOfLight } from './light-steps.ts';
import { outOfShot } from './out-of-shot.ts';
import type { RoomBounds } from './room-bounds.ts';

/** What a search for even light has to go by. */
export interface LightSearch {
  /** Sets as likely as the frames leave them, the best first. */
  readonly sets: readonly LitSet[];
  readonly spots: SpreadSpots;
  readonly bounds: readonly RoomBounds[];
}

/** Of the light, in stops: residuals count from here, and steps cost so much of it for each number of 1. */
const WORTH_EV = 0.01;
const COST = 0.15;
/** A light that stands or comes out of its bounds by this, in frame widths, counts as one of these. */
const OUTSIDE = 0.01;
/** A light's power is not changed by more than this at once, in stops: beyond, one light does the work of two. Own choice. */
const MOST_STOPS = 2.5;
/** What a frame width of it counts for when spreads are compared, in stops. */
const OUT_EV = 10;

/** An exponent of the mean that is made small, and for how many rounds. */
interface Stage {
  readonly power: number;
  readonly rounds: number;
}
/** One after the other: the last is nearly the range itself. */
export const ROUGHLY: readonly Stage[] = [{ power: 2, rounds: 5 }];
export const FINELY: readonly Stage[] = [
  { power: 6, rounds: 4 },
  { power: 14, rounds: 4 },
];

/**
 * The change by some steps that leaves the light evenest, over all likely sets together, from one starting point: it
 * makes the mean of the deviations from the middle of the range small, at growing powers (reweighted least squares),
 * with a small cost for each length.
 */
export function evenestChange(
  { sets, spots, bounds }: LightSearch,
  steps: readonly StepOfLight[],
  start: readonly LightChange[],
  stages: readonly Stage[] = [...ROUGHLY, ...FINELY],
): LightChange[] {
  const count = spots.x.length;
  const lights = sets[0]!.lights.length;
  const size = figureCount(steps);
  const seen = sets.map(() => ({ lighter: sampleLighter(spots), light: emptySampleLight(count) }));
  const weights = new Float64Array(sets.length * count).fill(1);
  const perSpot = 1 / (WORTH_EV * Math.sqrt(sets.length * count));
  const leastOut = sets.map((set) => set.lights.map((light) => Math.min(0, outOfShot(set, light))));
  const edges = 10 * lights;
  const length = sets.length * count + size + edges;
  const changeAt = (point: Float64Array) => ({ ...NOTHING_CHANGED, lights: changesOf(steps, point, lights) });
  type WorkOut = ReturnType<SampleLighter['near']>;
  const worked = (point: Float64Array, into: Float64Array, workOut: (s: number) => WorkOut): void => {
    const change = changeAt(point);
    const changed = sets.map((set) => changedSet(set, change));
    changed.forEach((set, s) => {
      const { light } = seen[s]!;
      workOut(s)(set, light);
      const middle = middleOf(light.ev);
      for (let i = 0; i < count; i++)
        into[s * count + i] = (light.ev[i]! - middle) * perSpot * weights[s * count + i]!;
    });
    const at = sets.length * count;
    for (let i = 0; i < size; i++) into[at + i] = COST * point[i]!;
    into.set(outside(changed, change, leastOut, bounds), at + size);
  };
  const residuals = (point: Float64Array, into: Float64Array) => worked(point, into, (s) => seen[s]!.lighter);
  const near = (point: Float64Array) => {
    const nears = sets.map((set, s) => seen[s]!.lighter.near(changedSet(set, changeAt(point))));
    return (moved: Float64Array, into: Float64Array) => worked(moved, into, (s) => nears[s]!);
  };
  const into = new Float64Array(length);
  const held = (point: Float64Array) =>
    numbersOf(steps, heldInBounds(sets[0]!, changesOf(steps, point, lights), bounds));
  /** Mean of the ranges themselves, in stops; what stands where no light can counts as much more. */
  const rangeAt = (point: Float64Array): number => {
    weights.fill(1);
    residuals(point, into);
    // counted from the middle of the range, either end of it lies half of it away
    const most = sets.map((_, s) =>
      into.subarray(s * count, (s + 1) * count).reduce((a, b) => Math.max(a, b)),
    );
    const out = into.subarray(sets.length * count + size).reduce((sum, each) => sum + each * OUTSIDE, 0);
    return (2 * mean(most)) / perSpot + OUT_EV * out;
  };
  // a step at a high power goes by spots that were the extremes before it: what it finds need not be more even
  let best = held(numbersOf(steps, start));
  let least = rangeAt(best);
  for (const { power, rounds } of stages) {
    if (power > 2) reweigh(weights, residuals, best, into, count, power);
    else weights.fill(1);
    const { point } = leastSquares(residuals, best, length, rounds, near);
    const range = rangeAt(held(point));
    if (range < least) [best, least] = [held(point), range];
  }
  return changesOf(steps, best, lights);
}

function middleOf(ev: Float64Array): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of ev) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return (low + high) / 2;
}

/** So weighted, squares of the deviations stand for their higher powers. */
function reweigh(
  weights: Float64Array,
  residuals: (point: Float64Array, into: Float64Array) => void,
  point: Float64Array,
  into: Float64Array,
  count: number,
  power: number,
): void {
  weights.fill(1);
  residuals(point, into);
  for (let from = 0; from < weights.length; from += count) {
    let most = 0;
    for (let i = from; i < from + count; i++) most = Math.max(most, Math.abs(into[i]!));
    let sum = 0;
    for (let i = from; i < from + count; i++) {
      weights[i] = Math.max(0.01, (Math.abs(into[i]!) / most) ** ((power - 2) / 2));
      sum += weights[i]! ** 2;
    }
    const scale = Math.sqrt(count / sum);
    for (let i = from; i < from + count; i++) weights[i]! *= scale;
  }
}

/**
 * How far lights of the best set, changed, stand beyond their bounds, and those of any in the picture; 0 where they don't.
 * `leastOut`: what is borne of that.
 */
function outside(
  changed: readonly LitSet[],
  change: SetChange,
  leastOut: readonly (readonly number[])[],
  bounds: readonly RoomBounds[],
): number[] {
  const beyond = (way: number) => Math.max(0, way) / OUTSIDE;
  return changed[0]!.lights.flatMap((light, lamp) => {
    const { left, right, up, down, nearest, farthest, aside } = bounds[lamp]!;
    const { x, y, distance, aimX, aimY } = light;
    return [
      ...[beyond(Math.abs(aimX - x) - aside), beyond(Math.abs(aimY - y) - aside)],
      ...[beyond(left - x), beyond(x - right), beyond(up - y), beyond(y - down)],
      ...[beyond(nearest - distance), beyond(distance - farthest)],
      beyond(Math.abs(change.lights[lamp]!.stops) - MOST_STOPS),
      beyond(Math.max(...changed.map((set, s) => leastOut[s]![lamp]! - outOfShot(set, set.lights[lamp]!)))),
    ];
  });
}

/** What the search leaves of a hair beyond the bounds, taken off. */
function heldInBounds(
  set: LitSet,
  changes: readonly LightChange[],
  bounds: readonly RoomBounds[],
): LightChange[] {
  const held = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));
  return changes.map((change, lamp) => {
    const { x, y, distance } = set.lights[lamp]!;
    const { left, right, up, down, nearest, farthest } = bounds[lamp]!;
    return {
      ...change,
      right: held(x + change.right, left, right) - x,
      down: held(y + change.down, up, down) - y,
      ratio: held(distance * change.ratio, nearest, farthest) / distance,
      stops: held(change.stops, -MOST_STOPS, MOST_STOPS),
    };
  });
}
