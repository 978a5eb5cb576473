import { describe, expect, test } from 'vitest';
import {
  changedSet,
  type LightChange,
  NO_CHANGE,
  NOTHING_CHANGED,
} from '../../../src/engine/lamps/light-change.ts';
import type { LitSet, SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { spreadTaker } from '../../../src/engine/lamps/set-spread.ts';
import { movesOfPlan } from '../../../src/engine/moves/moves-of-plan.ts';
import { planLights, withoutStep } from '../../../src/engine/moves/plan-lights.ts';
import { roomBounds } from '../../../src/engine/moves/room-bounds.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from '../lamps/set-of.ts';
import { SPOTS } from './spread-spots-of.ts';

const SHEET = { forwardShare: 0, lobeRad: 0.4 };
/** A light goes back to 1200 mm, two frame widths, and is taken to stand 5 % short of it. */
const SETUP = { ...UNKNOWN_SETUP, frameWidthMm: 600, room: { ...UNKNOWN_SETUP.room, reachMm: 1200 } };
const FARTHEST = 0.95 * 2;

const behindSheet = (changes: Partial<SetLight>) => setOf([lightOf(changes)], { sheet: SHEET });
const planOf = (sets: readonly LitSet[], enoughEv: number) =>
  planLights({ sets, spots: SPOTS, bounds: roomBounds(sets[0]!, SETUP) }, enoughEv);
const changed = (set: LitSet, lights: readonly LightChange[]) =>
  changedSet(set, { ...NOTHING_CHANGED, lights });
const spreadOf = (set: LitSet) => spreadTaker(SPOTS)(set).ev;

/** The moves that a plan asks for. */
const stepsOf = (plan: readonly LightChange[]) => movesOfPlan(plan, SETUP, () => 0);

describe('planLights(search, enoughEv)', () => {
  test('brings a lone small light back before the middle, as far back as it goes', () => {
    for (const beamPower of [0, 1]) {
      const set = behindSheet({ x: 0.35, y: -0.15, beamPower });
      const stands = changed(set, planOf([set], 0)).lights[0]!;
      console.log(
        `measured: cos^${beamPower + 3}: ${stands.x.toFixed(3)} and ${stands.y.toFixed(3)} off the middle, ${stands.distance.toFixed(3)} off (farthest ${FARTHEST})`,
      );
      expectWithin(stands.x, 0, 0.03);
      expectWithin(stands.y, 0, 0.03);
      expectWithin(stands.distance, FARTHEST, 0.02);
    }
  });

  test('moves nothing where no move makes the light more even', () => {
    const best = behindSheet({ distance: FARTHEST });
    expect(planOf([best], 0)).toEqual([NO_CHANGE]);
  });

  test('moves nothing where the light is even enough', () => {
    const set = behindSheet({ x: 0.1 });
    expect(planOf([set], spreadOf(set) + 0.01)).toEqual([NO_CHANGE]);
    expect(planOf([set], spreadOf(set) - 0.05)).not.toEqual([NO_CHANGE]);
  });

  test('takes as few steps as bring the light to what is enough', () => {
    const set = behindSheet({ x: 0.4 });
    const [slid, back, both] = [{}, { x: 0.4, distance: FARTHEST }, { distance: FARTHEST }].map((light) =>
      spreadOf(behindSheet(light)),
    ) as [number, number, number];
    expect(both).toBeLessThan(Math.min(slid, back) - 0.2);
    for (const [enough, steps] of [
      [Math.max(slid, back) + 0.02, 1],
      [Math.min(slid, back) - 0.1, 2],
    ] as const) {
      const plan = planOf([set], enough);
      expect(stepsOf(plan)).toHaveLength(steps);
      expect(spreadOf(changed(set, plan))).toBeLessThan(enough);
    }
  });

  test('leaves out steps that hardly matter', () => {
    // a bare bulb shines alike all round: it is never turned; equal lights are never balanced
    const [bulb] = planOf([behindSheet({ x: 0.4, beamPower: 0 })], 0);
    expect(bulb).toMatchObject({ aimRight: 0, aimDown: 0, stops: 0 });
    const pair = setOf([lightOf({ x: -0.9, aimX: 0 }), lightOf({ x: 0.9, aimX: 0 })]);
    for (const { stops } of planOf([pair], 0)) expect(stops).toBe(0);
  });

  test('puts two lights that differ in power alone right in one step', () => {
    const pair = setOf([lightOf({ x: -0.5, aimX: 0 }), lightOf({ x: 0.5, aimX: 0, strengthEv: 0.7 })]);
    const enough = spreadOf(changed(pair, [NO_CHANGE, { ...NO_CHANGE, stops: -0.7 }])) + 0.02;
    const plan = planOf([pair], enough);
    expect(stepsOf(plan)).toHaveLength(1);
    expect(spreadOf(changed(pair, plan))).toBeLessThan(enough);
  });

  test('goes by likely sets together: none of them is left much worse than the others', () => {
    const sets = [0, 0.1, -0.1, 0.05, -0.05].map((off) => behindSheet({ x: 0.3 + off, distance: FARTHEST }));
    const plan = planOf(sets, 0);
    expectWithin(plan[0]!.right, -0.3, 0.04);
  });
});

test('withoutStep leaves one step of one light out, and no other', () => {
  const change: LightChange = {
    ...{ right: 1, down: 2, ratio: 3, aimRight: 4, aimDown: 5, stops: 6, mired: 7, duv: 8 },
  };
  const without = (step: 'slide' | 'distance' | 'turn' | 'power') =>
    withoutStep([change, change], { lamp: 1, step });
  expect(without('slide')).toEqual([change, { ...change, right: 0, down: 0 }]);
  expect(without('distance')).toEqual([change, { ...change, ratio: 1 }]);
  expect(without('turn')).toEqual([change, { ...change, aimRight: 0, aimDown: 0 }]);
  expect(without('power')).toEqual([change, { ...change, stops: 0 }]);
});
