import { expect, test } from 'vitest';
import { NO_CHANGE } from '../../../src/engine/lamps/light-change.ts';
import {
  changesOf,
  figureCount,
  numbersOf,
  type StepOfLight,
} from '../../../src/engine/moves/light-steps.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

const ALL: readonly StepOfLight[] = [
  { lamp: 0, step: 'slide' },
  { lamp: 0, step: 'distance' },
  { lamp: 0, step: 'turn' },
  { lamp: 1, step: 'turn' },
  { lamp: 1, step: 'slide' },
  { lamp: 1, step: 'power' },
];

test('a slide and a turn have two figures, distance and power one', () => {
  expect(figureCount([])).toBe(0);
  expect(figureCount(ALL)).toBe(2 + 1 + 2 + 2 + 2 + 1);
  expect(figureCount([ALL[1]!, ALL[5]!])).toBe(2);
  expect(changesOf(ALL, new Float64Array(figureCount(ALL)), 2)).toEqual([NO_CHANGE, NO_CHANGE]);
});

test('numbers come back from the changes that they stand for', () => {
  const random = seededRandom(2);
  for (let i = 0; i < 50; i++) {
    const steps = ALL.filter(() => random.uniform() < 0.6);
    const numbers = Float64Array.from({ length: figureCount(steps) }, () => random.normal());
    const back = numbersOf(steps, changesOf(steps, numbers, 2));
    expect(back).toHaveLength(numbers.length);
    numbers.forEach((number, k) => {
      expectWithin(back[k]!, number, 1e-12);
    });
  }
});

test('changes come back from their numbers, as far as there are steps for them', () => {
  const change = {
    ...NO_CHANGE,
    right: 0.4,
    down: -0.1,
    ratio: 1.7,
    aimRight: -0.2,
    aimDown: 0.3,
    stops: -1,
  };
  const [first, second] = changesOf(ALL, numbersOf(ALL, [change, change]), 2);
  for (const [figure, value] of Object.entries({ ...change, stops: 0 }))
    expectWithin(first![figure as keyof typeof change], value, 1e-12);
  for (const [figure, value] of Object.entries({ ...change, ratio: 1 }))
    expectWithin(second![figure as keyof typeof change], value, 1e-12);
});

test('a light that no step names stays as it is', () => {
  expect(changesOf([{ lamp: 1, step: 'distance' }], [1], 3)).toMatchObject([
    NO_CHANGE,
    { ratio: expect.closeTo(Math.exp(0.3), 9), right: 0 },
    NO_CHANGE,
  ]);
});
