import { expect, test } from 'vitest';
import { setLight } from '../../../src/engine/lamps/set-light.ts';
import { spreadTaker } from '../../../src/engine/lamps/set-spread.ts';
import { expectWithin } from '../../expect-within.ts';
import { uvPrimeOfXyz } from '../../synthetic/colour-truth.ts';
import { SPOTS } from '../moves/spread-spots-of.ts';
import { lightOf, setOf } from './set-of.ts';

const TWO = setOf(
  [
    lightOf({ x: -0.4 }),
    lightOf({ x: 0.7, distance: 1.4, strengthEv: 1, colour: { mired: 60, duv: 0.002 } }),
  ],
  { spill: { levelEv: -3, rightEv: 0.5, downEv: 1, colour: { mired: 90, duv: 0 } } },
);

test('the spread is that of the set’s light at the spots, and of its colour from the mean', () => {
  const light = setLight(TWO);
  const seen = Array.from(SPOTS.x, (x, i) => light(x, SPOTS.y[i]!));
  const luminance = seen.map(([, y]) => Math.log2(y));
  const colours = seen.map(uvPrimeOfXyz);
  const mean = [0, 1].map((i) => colours.reduce((sum, uv) => sum + uv[i as 0 | 1], 0) / colours.length);
  const { ev, deltaUv } = spreadTaker(SPOTS)(TWO);
  expect(ev).toBeGreaterThan(0.2);
  expectWithin(ev, Math.max(...luminance) - Math.min(...luminance), 1e-9);
  expectWithin(deltaUv, Math.max(...colours.map(([u, v]) => Math.hypot(u - mean[0]!, v - mean[1]!))), 1e-9);
});

test('does not go by level, nor by which sets were asked for before', () => {
  const taken = spreadTaker(SPOTS);
  const before = taken(TWO);
  taken(setOf([lightOf({ x: 0.3 })]));
  expect(taken(TWO)).toEqual(before);
  const { lights, spill } = TWO;
  const brighter = {
    ...TWO,
    lights: lights.map((light) => ({ ...light, strengthEv: light.strengthEv + 2 })),
    spill: { ...spill!, levelEv: spill!.levelEv + 2 },
  };
  expectWithin(taken(brighter).ev, before.ev, 1e-9);
  expectWithin(taken(brighter).deltaUv, before.deltaUv, 1e-12);
  expectWithin(taken(setOf([lightOf({})])).deltaUv, 0, 1e-12);
});
