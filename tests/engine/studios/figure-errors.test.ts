import { expect, test } from 'vitest';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import { expectWithin } from '../../expect-within.ts';
import type { CauseFacts } from '../../synthetic/random/planted-cause.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import {
  isSpillClaimed,
  lensError,
  placeErrors,
  plantedSpillShare,
  spillError,
  unequalColourError,
} from './figure-errors.ts';

const studioWith = (planted: CauseFacts, set = {}) =>
  ({ planted: [planted], set }) as unknown as RandomStudio;
const found = (set: unknown) => ({ set: set as SetReading });

const spill = (spillShare: number, mired: number) =>
  studioWith({ kind: 'stray-light', spillShare, mired, slopeEv: 0, towardDeg: 0 });

test('places are right of and below the frame’s middle, in its widths', () => {
  const studio = studioWith(
    { kind: 'off-centre', rightFrameWidths: 0.3, downFrameWidths: 0 },
    { frameWidthMm: 1000, lamps: [{ xMm: 300, yMm: -100 }] },
  );
  const light = { right: { value: 0.25, plusMinus: 0.1 }, down: { value: -0.07, plusMinus: 0.02 } };
  const [error] = placeErrors(studio, found({ lights: [light] }));
  expectWithin(error!.rightWidths, -0.05, 1e-9);
  expectWithin(error!.downWidths, 0.03, 1e-9);
  expect([error!.plusMinusRight, error!.plusMinusDown]).toEqual([0.1, 0.02]);
  expect(placeErrors(studio, { set: null })[0]!.rightWidths).toBe(Number.POSITIVE_INFINITY);
});

test('spill counts from a share of 5 % and 40 mired on', () => {
  expect(plantedSpillShare(spill(0.05, -40))).toBe(0.05);
  expect(plantedSpillShare(spill(0.049, -60))).toBeNull();
  expect(plantedSpillShare(spill(0.2, 39))).toBeNull();
});

test('spill is claimed where its ± is below a fifth of it, and off by a part of what was planted', () => {
  const share = (value: number, plusMinus: number) => found({ spill: { share: { value, plusMinus } } });
  expect(isSpillClaimed(share(0.1, 0.019))).toBe(true);
  expect(isSpillClaimed(share(0.1, 0.021))).toBe(false);
  expectWithin(spillError(0.1, share(0.12, 0)), 0.2, 1e-9);
  expect(isSpillClaimed({ set: null })).toBe(false);
});

test('a lens’s loss is compared in stops', () => {
  const studio = studioWith({ kind: 'lens-falloff', cornerEv: 0.4, mechanicalEv: 0.2 });
  expectWithin(lensError(studio, found({ lensCornerEv: { value: 0.35 } }))!, -0.05, 1e-9);
  expect(lensError(spill(0.1, 50), found({}))).toBeNull();
});

test('unequal colour keeps which of the two lights is warmer', () => {
  const balance = found({ balance: { mired: { value: 28 } } });
  const warmer = (light: 0 | 1) => studioWith({ kind: 'unequal-colour', warmer: light, mired: 30, duv: 0 });
  expectWithin(unequalColourError(warmer(0), balance)!, -2, 1e-9);
  expectWithin(unequalColourError(warmer(1), balance)!, 58, 1e-9);
  expect(unequalColourError(warmer(0), { set: null })).toBe(Number.POSITIVE_INFINITY);
});
