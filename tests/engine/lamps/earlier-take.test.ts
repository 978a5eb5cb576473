import { expect, test } from 'vitest';
import { type EarlierTake, setAtTake, slipCount } from '../../../src/engine/lamps/earlier-take.ts';
import { asMade, slipsOf } from '../../../src/engine/lamps/hand-slips.ts';
import {
  changedSet,
  NO_CHANGE,
  NOTHING_CHANGED,
  type SetChange,
} from '../../../src/engine/lamps/light-change.ts';
import type { SetSamples } from '../../../src/engine/lamps/set-samples.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from './set-of.ts';

const take = (change: SetChange): EarlierTake => ({ samples: {} as SetSamples, change, found: [] });
const CHANGES: SetChange[] = [
  { ...NOTHING_CHANGED, lights: [{ ...NO_CHANGE, right: 0.4, ratio: 1.3 }, NO_CHANGE] },
  {
    ...NOTHING_CHANGED,
    lights: [
      { ...NO_CHANGE, aimDown: 0.2 },
      { ...NO_CHANGE, down: -0.3, stops: 1 },
    ],
  },
];

test('from the set as it stands every earlier one comes back, made with the slips that hands had', () => {
  const random = seededRandom(3);
  const first = setOf([lightOf({ x: 0.2, distance: 1.6 }), lightOf({ x: -0.6 })]);
  const takes = CHANGES.map(take);
  expect(slipCount(takes)).toBe(CHANGES.reduce((sum, change) => sum + slipsOf(change).length, 0));
  const slips: number[] = [];
  const stood = [first];
  for (const change of CHANGES) {
    const own = new Map(slipsOf(change).map((slip) => [slip, random.normal()]));
    slips.push(...own.values());
    const before = stood.at(-1)!;
    const distances = before.lights.map(({ distance }) => distance);
    stood.push(
      changedSet(
        before,
        asMade(change, distances, 700, (slip) => own.get(slip) ?? 0),
      ),
    );
  }
  const now = { ...stood.at(-1)!, slips };
  [0, 1].forEach((index) => {
    const back = setAtTake(takes, index, 700)(now);
    back.lights.forEach((light, lamp) => {
      const was = stood[index]!.lights[lamp]!;
      for (const figure of ['x', 'y', 'distance', 'aimX', 'aimY', 'strengthEv'] as const)
        expectWithin(light[figure], was[figure], 0.004);
    });
  });
});
