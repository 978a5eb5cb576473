import { describe, expect, test } from 'vitest';
import {
  changedSet,
  type LightChange,
  NO_CHANGE,
  NOTHING_CHANGED,
} from '../../../src/engine/lamps/light-change.ts';
import type { LitSet, SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { spreadTaker } from '../../../src/engine/lamps/set-spread.ts';
import { outcomeOf } from '../../../src/engine/moves/outcome-of.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from '../lamps/set-of.ts';
import { SPOTS } from './spread-spots-of.ts';

const behindSheet = (changes: Partial<SetLight>) =>
  setOf([lightOf(changes)], { sheet: { forwardShare: 0, lobeRad: 0.4 } });
const changed = (set: LitSet, lights: readonly LightChange[]) =>
  changedSet(set, { ...NOTHING_CHANGED, lights });
const spreadOf = (set: LitSet) => spreadTaker(SPOTS)(set).ev;

describe('outcomeOf(sets, spots)', () => {
  const sets = [0.8, 1, 1.3].map((distance) => behindSheet({ x: 0.2, distance }));
  const slide = { ...NO_CHANGE, right: -0.2 };

  test('made exactly, is each set’s own spread after the change', () => {
    const { exactly } = outcomeOf(sets, SPOTS);
    exactly([slide]).forEach(({ ev }, i) => {
      expectWithin(ev, spreadOf(changed(sets[i]!, [slide])), 1e-9);
    });
  });

  test('made by hands, is the same where nothing is touched, and otherwise near it', () => {
    const { exactly, byHand } = outcomeOf(sets, SPOTS);
    expect(byHand([NO_CHANGE], 600)).toEqual(exactly([NO_CHANGE]));
    const [exact, made] = [exactly([slide]), byHand([slide], 600)];
    expect(made).not.toEqual(exact);
    made.forEach(({ ev }, i) => {
      expectWithin(ev, exact[i]!.ev, 0.1);
    });
    expect(byHand([slide], 600)).toEqual(made); // the same every time
  });

  test('tells the mean, and 1.96 standard deviations about it', () => {
    const { value, plusMinus } = outcomeOf(sets, SPOTS).estimate([0.1, 0.2, 0.3]);
    expectWithin(value, 0.2, 1e-12);
    expectWithin(plusMinus, 1.96 * Math.sqrt(0.02 / 3), 1e-12);
  });
});
