import { expect, test } from 'vitest';
import { aimError, goodDistance, takenOut, thrownEv } from '../../../src/engine/lamps/taken-out.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf, WHITE } from './set-of.ts';

const PAIR = setOf([
  lightOf({ x: -0.8, aimX: 0, strengthEv: 0.5 }),
  lightOf({ x: 1, aimX: 0.1, strengthEv: 0, colour: { mired: 30, duv: 0 } }),
]);

test('off-centre slides lights and aims together until their middle stands on the frame’s', () => {
  const [left, right] = takenOut(PAIR, 'off-centre')!.lights;
  expectWithin(left!.x + right!.x, 0, 1e-12);
  expectWithin(right!.x - left!.x, 1.8, 1e-12);
  expectWithin(left!.aimX, -0.1, 1e-12);
});

test('too-close goes back to where closeness is no fault, as strong on the background as before', () => {
  const close = setOf([lightOf({ distance: 0.6 })]);
  const [back] = takenOut(close, 'too-close')!.lights;
  expectWithin(back!.distance, goodDistance(close), 1e-12);
  expectWithin(thrownEv(back!), thrownEv(close.lights[0]!), 1e-12);
  const far = setOf([lightOf({ distance: 3 })]);
  expect(takenOut(far, 'too-close')).toEqual(far);
});

test('aimed-off is what lies off the way from the spot before the light to the middle of the frame', () => {
  expect(aimError(lightOf({ x: 0.4, aimX: 0.4 }))).toEqual([0, 0]);
  expect(aimError(lightOf({ x: 0.4, aimX: 0.1 }))).toEqual([0, 0]);
  const [right, down] = aimError(lightOf({ x: 0.4, aimX: -0.2, aimY: 0.1 }));
  expectWithin(right, -0.2, 1e-12);
  expectWithin(down, 0.1, 1e-12);
  const off = setOf([lightOf({ x: 0.4, aimX: -0.2, aimY: 0.1 })]);
  const [mended] = takenOut(off, 'aimed-off')!.lights;
  expect(aimError(mended!)).toEqual([0, 0]);
});

test('unequal lights are brought to the same level and colour, the sum of stops kept', () => {
  const [left, right] = takenOut(PAIR, 'unequal-lamps')!.lights;
  expectWithin(thrownEv(left!), thrownEv(right!), 1e-12);
  expectWithin(thrownEv(left!), 0.25, 1e-12);
  const [a, b] = takenOut(PAIR, 'unequal-colour')!.lights;
  expect(a!.colour).toEqual(b!.colour);
  expect(a!.colour.mired).toBe(15);
});

test('the rest is set to nothing, and what a set does not have can’t be taken out', () => {
  const set = setOf([lightOf()], {
    sheet: { forwardShare: 0.3, lobeRad: 0.3 },
    spill: { levelEv: -3, rightEv: 0, downEv: 0, colour: WHITE },
    lens: { squareEv: 0.2, fourthEv: 0.1, corner: { mired: 4, duv: 0 } },
    tint: { x: 0, y: 0, rightMired: 10, downMired: 0, duvPerMired: 0, lossEvPerMired: 0, soft: 0.5 },
  });
  expect(takenOut(set, 'hot-spot')!.sheet!.forwardShare).toBe(0);
  expect(takenOut(set, 'stray-light')!.spill).toBeNull();
  expect(takenOut(set, 'tinted-on-one-side')!.tint).toBeNull();
  expect(takenOut(set, 'lens-falloff')!.lens).toMatchObject({
    squareEv: 0,
    fourthEv: 0,
    corner: { mired: 4 },
  });
  expect(takenOut(set, 'lens-colour')!.lens).toMatchObject({ squareEv: 0.2, corner: { mired: 0, duv: 0 } });
  for (const cause of ['unequal-lamps', 'unequal-colour'] as const) expect(takenOut(set, cause)).toBeNull();
});
