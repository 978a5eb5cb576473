import { expect, test } from 'vitest';
import { asMade, SLIPS_PER_LIGHT, slipsOf } from '../../../src/engine/lamps/hand-slips.ts';
import {
  changedSet,
  NO_CHANGE,
  NOTHING_CHANGED,
  type SetChange,
} from '../../../src/engine/lamps/light-change.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { aimedBy, handsFrom } from '../../synthetic/random/hands.ts';
import { lightOf, setOf } from './set-of.ts';

const WIDTH_MM = 600;
const change: SetChange = {
  ...NOTHING_CHANGED,
  lights: [{ ...NO_CHANGE, right: 0.5, down: -0.2, ratio: 1.4 }, NO_CHANGE, { ...NO_CHANGE, stops: 0.5 }],
};

test('without a slip a change is made as it was told', () => {
  const made = asMade(change, [1, 1, 1], WIDTH_MM, () => 0);
  made.lights.forEach((light, lamp) => {
    for (const [figure, value] of Object.entries(light))
      expectWithin(value, change.lights[lamp]![figure as keyof typeof NO_CHANGE], 1e-12);
  });
});

test('only what was touched can be missed', () => {
  expect(slipsOf(change)).toEqual([0, 1, 2, 3, 4, 2 * SLIPS_PER_LIGHT + 5]);
  expect(slipsOf(NOTHING_CHANGED)).toEqual([]);
  const made = asMade(change, [1, 1, 1], WIDTH_MM, () => 1);
  expect(made.lights[1]).toEqual(NO_CHANGE);
  expect(made.lights[2]).toMatchObject({ right: 0, ratio: 1, aimRight: 0 });
});

test('errs as far as hands do, place, distance and aim', () => {
  // the studio's hands, written apart: bounds of an even spread, aimed after the stand was moved
  const hands = handsFrom(seededRandom(8));
  const random = seededRandom(9);
  const [mine, theirs]: [number[][], number[][]] = [[], []];
  for (let i = 0; i < 4000; i++) {
    const slips = Array.from({ length: 3 * SLIPS_PER_LIGHT }, () => random.normal());
    const one = { ...NOTHING_CHANGED, lights: [change.lights[0]!] };
    const set = setOf([lightOf()]);
    const { x, distance, aimX } = changedSet(
      set,
      asMade(one, [1], WIDTH_MM, (k) => slips[k]!),
    ).lights[0]!;
    mine.push([x, distance, aimX]);
    const xMm = hands.slidMm(0.5 * WIDTH_MM);
    const distanceMm = WIDTH_MM + hands.slidMm(0.4 * WIDTH_MM);
    const aim = aimedBy(hands, { xMm, yMm: 0, distanceMm }, { xMm: 0.5 * WIDTH_MM, yMm: 0 });
    theirs.push([xMm / WIDTH_MM, distanceMm / WIDTH_MM, aim.xMm / WIDTH_MM]);
  }
  for (const figure of [0, 1, 2]) {
    const deviation = (all: number[][]) => {
      const values = all.map((each) => each[figure]!);
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
    };
    expectWithin(deviation(mine) / deviation(theirs), 1, 0.06);
  }
});
