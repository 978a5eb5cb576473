import { expect, test } from 'vitest';
import { setLight } from '../../../src/engine/lamps/set-light.ts';
import { slidSet } from '../../../src/engine/lamps/slid-set.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf, WHITE } from './set-of.ts';

const WARM = { mired: 60, duv: 0.002 };
const SET = setOf([lightOf({ x: 0.3, y: -0.1, aimX: 0.1, aimY: 0.2 })], {
  spill: { levelEv: -3, rightEv: 0.7, downEv: -0.4, colour: WARM },
  tint: { x: 0, y: 0, rightMired: 15, downMired: -8, duvPerMired: 1e-4, lossEvPerMired: 0.004, soft: 0.4 },
  rim: { left: 0.05, right: -0.2, top: -0.1, bottom: -0.3, lossEv: 2, soft: 0.02 },
});
const PANEL = setOf([], {
  panel: {
    x: 0,
    y: 0,
    levelEv: 0,
    acrossEv: -0.3,
    downEv: 0.1,
    rightEv: 0.05,
    bottomEv: 0,
    halfWidth: 0.9,
    halfHeight: 0.8,
    colour: WHITE,
  },
});

test.each([
  ['a light, spill, a tinted surface and a rim', SET],
  ['a panel', PANEL],
] as const)('slidSet(set, right, down) shows what lies so far right and down: %s', (_, set) => {
  const [right, down] = [1 / 3, -0.1];
  const [still, slid] = [setLight(set), setLight(slidSet(set, right, down))];
  for (const [x, y] of [
    [0, 0],
    [-0.4, 0.2],
    [0.15, -0.3],
  ] as const) {
    const [wanted, found] = [still(x + right, y + down), slid(x, y)];
    for (const i of [0, 1, 2] as const) expectWithin(found[i] / wanted[i], 1, 1e-12);
  }
});

test('the lens stays with the camera', () => {
  const lens = { squareEv: 0.3, fourthEv: 0.1, corner: WHITE };
  expect(slidSet({ ...SET, lens }, 0.3, 0).lens).toBe(lens);
});
