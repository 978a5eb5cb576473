import { expect, test } from 'vitest';
import {
  changedSet,
  type LightChange,
  NO_CHANGE,
  NOTHING_CHANGED,
  type SetChange,
  setBefore,
  together,
  undone,
} from '../../../src/engine/lamps/light-change.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from './set-of.ts';

const SET = setOf([lightOf({ x: 0.3, y: -0.1, aimX: 0.1, distance: 1.5 }), lightOf({ x: -0.4 })], {
  sheet: { forwardShare: 0.3, lobeRad: 0.4 },
  spill: { levelEv: -4, rightEv: 1, downEv: 0.5, colour: { mired: 90, duv: 0 } },
});

const random = seededRandom(5);
const someChange = (): LightChange => ({
  ...{ right: random.normal(), down: random.normal(), ratio: Math.exp(random.normal() / 2) },
  ...{ aimRight: random.normal(), aimDown: random.normal(), stops: random.normal() },
  ...{ mired: 20 * random.normal(), duv: 0.003 * random.normal() },
});
const figuresOf = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : value === null || typeof value !== 'object'
      ? []
      : Object.values(value).flatMap(figuresOf);

test('nothing changed changes nothing', () => {
  expect(changedSet(SET, NOTHING_CHANGED)).toEqual(SET);
  expect(changedSet(SET, { ...NOTHING_CHANGED, lights: [NO_CHANGE, NO_CHANGE] })).toEqual(SET);
});

test('a slide takes the aimed-at spot along; distance and turn leave the place', () => {
  const { lights } = changedSet(SET, {
    ...NOTHING_CHANGED,
    lights: [
      { ...NO_CHANGE, right: 0.2, down: 0.1 },
      { ...NO_CHANGE, ratio: 1.5, aimRight: 0.3 },
    ],
  });
  expect(lights[0]).toMatchObject({ x: 0.5, y: 0, distance: 1.5, aimY: 0 });
  expectWithin(lights[0]!.aimX, 0.3, 1e-12);
  expect(lights[1]).toMatchObject({ x: -0.4, distance: 1.5 });
  expectWithin(lights[1]!.aimX, -0.1, 1e-12);
});

test('two like sheets let straight on what has gone straight through both', () => {
  const { sheet } = changedSet(SET, { ...NOTHING_CHANGED, isDoubled: true });
  expectWithin(sheet!.forwardShare, 0.09, 1e-12);
  expectWithin(sheet!.lobeRad, 0.4 * Math.SQRT2, 1e-12);
});

test('what was changed can be taken back, whatever it was', () => {
  for (let i = 0; i < 200; i++) {
    const change: SetChange = {
      lights: [someChange(), someChange()],
      spillEv: random.normal(),
      isDoubled: random.uniform() < 0.5,
    };
    const back = setBefore(changedSet(SET, change), change);
    const [was, is] = [figuresOf(SET), figuresOf(back)];
    was.forEach((figure, k) => {
      expectWithin(is[k]!, figure, 1e-9);
    });
  }
});

test('changes of one light add up, and undo each other', () => {
  const [one, other] = [someChange(), someChange()];
  const both = changedSet(SET, { ...NOTHING_CHANGED, lights: [together(one, other)] });
  const after = [one, other].reduce(
    (set, change) => changedSet(set, { ...NOTHING_CHANGED, lights: [change] }),
    SET,
  );
  figuresOf(after).forEach((figure, k) => {
    expectWithin(figuresOf(both)[k]!, figure, 1e-9);
  });
  figuresOf(together(one, undone(one))).forEach((figure, k) => {
    expectWithin(figure, figuresOf(NO_CHANGE)[k]!, 1e-12);
  });
});
