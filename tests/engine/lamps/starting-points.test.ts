import { describe, expect, test } from 'vitest';
import { setModel } from '../../../src/engine/lamps/set-model.ts';
import { startingPoints } from '../../../src/engine/lamps/starting-points.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import { samplesOfField } from './samples-of-field.ts';

const ASPECT = 2 / 3;
const WHITE = { mired: 0, duv: 0 };
const ARRANGEMENTS = ['behind-sheet', 'bounced', 'two-lamps', 'panel'] as const;

/** White light that is hottest at a spot right and down of the middle, in frame widths. */
const hottestAt =
  (right: number, down: number): KnownField =>
  (x, y) => {
    const light = 0.8 * 2 ** -((x - 0.5 - right) ** 2 + ((y - 0.5) * ASPECT - down) ** 2);
    return [light, light, light];
  };

function startsOf(arrangement: Setup['arrangement'], field: KnownField) {
  const model = setModel({ ...UNKNOWN_SETUP, arrangement }, ASPECT, WHITE);
  const points = startingPoints(model, samplesOfField(field, ASPECT), WHITE);
  return { model, points, sets: points.map((point) => model.setAt(point)) };
}

test.each(ARRANGEMENTS)(
  'starts of %s are points of its family, all different and none of them far-fetched',
  (arrangement) => {
    const { model, points } = startsOf(arrangement, hottestAt(-0.2, 0.1));
    expect(points.length).toBeGreaterThanOrEqual(4);
    for (const point of points) {
      expect(point).toHaveLength(model.parameters.length);
      expect(point.every((value) => Number.isFinite(value) && Math.abs(value) < 8)).toBe(true);
    }
    expect(new Set(points.map((point) => point.join(' '))).size).toBe(points.length);
  },
);

test.each([{ isGoodLens: true }, { isEvenPanel: true }])(
  'a family that lacks what a start would begin with does not begin twice from the same, %o',
  (traits) => {
    const model = setModel({ ...UNKNOWN_SETUP, arrangement: 'panel' }, ASPECT, WHITE, traits);
    const points = startingPoints(model, samplesOfField(hottestAt(0.1, 0), ASPECT), null);
    expect(points).toHaveLength(2);
    expect([...points[0]!]).not.toEqual([...points[1]!]);
  },
);

describe.each(['behind-sheet', 'bounced'] as const)('one light, %s', (arrangement) => {
  // samples lie at fifteenths of the frame, these among them
  const [right, down] = [-4 / 15, 2 / 15];
  const { sets } = startsOf(arrangement, hottestAt(right, down + ASPECT / 20));

  test('begins before the hottest spot, beyond it, and before the middle but aimed there', () => {
    const [before, beyond, aimed] = sets.map(({ lights: [light] }) => light!);
    const y = before!.y;
    expectWithin(before!.x, right, 1e-9);
    expectWithin(y, down, ASPECT / 10);
    expectWithin(beyond!.x, 2 * right, 1e-9);
    expectWithin(beyond!.y, 2 * y, 1e-9);
    expect(aimed).toMatchObject({ x: 0, y: 0 });
    expectWithin(aimed!.aimX, right, 1e-9);
    expectWithin(aimed!.aimY, y, 1e-9);
  });
});

test.each([
  ['right', 0.3, 1],
  ['left', -0.3, -1],
] as const)(
  'two lights begin alike, and with the one on the %s, where it is hottest, the stronger',
  (_, hot, sign) => {
    const { sets } = startsOf('two-lamps', hottestAt(hot, 0));
    const ahead = sets.map(({ lights: [left, right] }) => right!.strengthEv - left!.strengthEv);
    expectWithin(ahead[0]!, 0, 1e-9);
    expect(ahead.some((ev) => sign * ev > 0.5)).toBe(true);
    expect(ahead.every((ev) => sign * ev >= -1e-9)).toBe(true);
    expect(sets.some(({ lights: [left, right] }) => sign * (left!.x + right!.x) > 0.2)).toBe(true);
    // either of them aimed past the middle to that side, the nearer one in a narrow beam
    const aims = (lamp: 0 | 1, mostRad: number) =>
      sets.some(({ lights }) => {
        const { aimX, beamEdge } = lights[lamp]!;
        return sign * aimX > 0.5 && lights[1 - lamp]!.aimX === 0 && beamEdge!.angleRad < mostRad;
      });
    const [farther, nearer] = sign > 0 ? ([0, 1] as const) : ([1, 0] as const);
    expect([aims(farther, 2), aims(nearer, 0.4)]).toEqual([true, true]);
    expect(sets.filter(({ lights }) => lights.some(({ aimX }) => sign * aimX > 0.5))).toHaveLength(2);
  },
);

test('a panel begins flat, under a lens that falls off, and hotter in its middle', () => {
  const { sets } = startsOf('panel', hottestAt(0, 0));
  expect(sets[0]!.panel).toMatchObject({ acrossEv: 0, downEv: 0 });
  expect(sets[1]!.lens!.squareEv + sets[1]!.lens!.fourthEv).toBeGreaterThan(0.25);
  expect(sets[2]!.panel!.acrossEv).toBeLessThan(-1);
  expect(sets[2]!.panel!.downEv).toBeLessThan(-1);
});

test.each(ARRANGEMENTS)(
  '%s begins with spill of either colour too, rising to where the frame is warmer',
  (arrangement) => {
    const warmRight: KnownField = (x) => [0.5 * (1 + 0.12 * x), 0.5, 0.5 * (1 - 0.12 * x)];
    const { sets } = startsOf(arrangement, warmRight);
    const spills = sets.map(({ spill }) => spill!);
    const warm = spills.filter(({ colour }) => colour.mired > 100);
    expect(warm).toHaveLength(1);
    expect(warm[0]!.rightEv).toBeGreaterThan(0.5);
    const cool = spills.filter(({ colour }) => colour.mired < -60);
    expect(cool).toHaveLength(2);
    for (const { rightEv } of cool) expect(rightEv).toBeLessThan(-0.5);
  },
);
