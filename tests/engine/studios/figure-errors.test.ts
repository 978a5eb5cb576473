import { describe, expect, test } from 'vitest';
import { warmthFromD65 } from '../../../src/engine/colour/warmth.ts';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { uvPrimeOfXyz, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import type { CauseFacts } from '../../synthetic/random/planted-cause.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import { type LightColour, rgbOfLight } from '../../synthetic/studio/light-colour.ts';
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

describe('unequalColourError(studio, reading)', () => {
  const planckian = (kelvin: number, duv = 0) => ({ kind: 'planckian', kelvin, duv }) as const;
  const unequal = (light: LightColour, shifted: LightColour, white: LightColour, warmer: 0 | 1 = 0) =>
    studioWith(
      { kind: 'unequal-colour', warmer, mired: 1e6 / shifted.kelvin - 1e6 / light.kelvin, duv: 0 },
      {
        lamps: (warmer === 0 ? [shifted, light] : [light, shifted]).map((colour) => ({ colour })),
        whiteBalance: white,
      },
    );
  const balance = (mired: number) => found({ balance: { mired: { value: mired } } });

  test('keeps which of the two lights is warmer', () => {
    // balanced for D65, what is recorded is the lamps' own
    const white = { kind: 'daylight', kelvin: 6504 } as const;
    const [daylight, warm] = [planckian(6500, 0.0032), planckian(1e6 / (1e6 / 6500 + 30), 0.0032)];
    expectWithin(unequalColourError(unequal(daylight, warm, white), balance(28))!, -2, 0.3);
    expectWithin(unequalColourError(unequal(daylight, warm, white, 1), balance(28))!, 58, 0.3);
    expect(unequalColourError(unequal(daylight, warm, white), { set: null })).toBe(Number.POSITIVE_INFINITY);
    expect(unequalColourError(spill(0.1, 50), found({}))).toBeNull();
  });

  test('goes by the white of the file, as every warmth that is told', () => {
    const tungsten = planckian(3400);
    const warmer = planckian(1e6 / (1e6 / 3400 + 67), 0.0024);
    const studio = unequal(tungsten, warmer, tungsten);
    // what a reading of a frame of nothing but that lamp tells of it
    const [uPrime, vPrime] = uvPrimeOfXyz(xyzOfSrgbLight(rgbOfLight(warmer, tungsten)));
    const told = warmthFromD65(uPrime, vPrime)!.mired;
    console.log(
      `measured: 67 mired, and Duv 0.0024, between lamps of 3400 K are ${told.toFixed(1)} in a file balanced for them`,
    );
    expectWithin(told, 77.1, 0.5);
    expectWithin(unequalColourError(studio, balance(told))!, 0, 0.1);
  });
});
