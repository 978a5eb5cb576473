import { expect, test } from 'vitest';
import { type ExposedBy, isBeyondSync, waysToExpose } from '../../../src/engine/exposure/ways-to-expose.ts';
import { expectWithin } from '../../expect-within.ts';

const EXIF = { seconds: 1 / 125, fNumber: 8, iso: 100, focalLengthMm: 90, takenAt: null };
const BY: ExposedBy = { exposure: EXIF, light: 'continuous', power: null, isLightAlone: false };
const toldOf = (stops: number, by: Partial<ExposedBy> = {}) =>
  waysToExpose(stops, { ...BY, ...by }).map(({ kind, to, caution }) => [kind, to, caution]);

test('waysToExpose tells shutter, aperture, speed and power, in whole thirds, with what they leave', () => {
  const ways = waysToExpose(-0.4, { ...BY, power: 1 / 4 });
  expect(ways.map(({ kind, from, to }) => [kind, from, to])).toEqual([
    ['shutter', 1 / 125, 1 / 160],
    ['aperture', 8, 9],
    ['iso', 100, 80],
    ['power', 1 / 4, (1 / 4) * 2 ** (-1 / 3)],
  ]);
  for (const { stops, leavesEv } of ways) {
    expectWithin(stops, -1 / 3, 1e-9);
    expectWithin(leavesEv, -0.4 + 1 / 3, 1e-9);
  }
});

test.each([
  [
    'the shutter does nothing to a flash',
    1,
    { light: 'flash' },
    [
      ['aperture', 5.6, null],
      ['iso', 200, null],
      ['power', null, null],
    ],
  ],
  [
    'of a light of unknown kind it may do nothing',
    1,
    { light: null },
    [
      ['shutter', 1 / 60, 'shutter-does-nothing'],
      ['aperture', 5.6, null],
      ['iso', 200, null],
      ['power', null, null],
    ],
  ],
  [
    'and times that fall out of step are told',
    -1,
    { light: null, exposure: { ...EXIF, fNumber: null, iso: null } },
    [
      ['shutter', 1 / 250, 'sync'],
      ['power', null, null],
    ],
  ],
  [
    'short times under a steady light are told',
    -1 / 3,
    { exposure: { ...EXIF, fNumber: null, iso: null } },
    [
      ['shutter', 1 / 160, 'flicker'],
      ['power', null, null],
    ],
  ],
  ['nothing is to be changed by less than half a third', 0.15, {}, []],
  [
    'the camera changes nothing between subject and background',
    1,
    { isLightAlone: true, power: 1 / 8 },
    [['power', 1 / 4, null]],
  ],
  ['full power cannot be more', 1, { exposure: null, power: 1 }, []],
  ['without Exif there is the light', -1, { exposure: null }, [['power', null, null]]],
] as const)('waysToExpose: %s', (_what, stops, by, ways) => {
  expect(toldOf(stops, by)).toEqual(ways);
});

test('isBeyondSync: a flash at 1/250 s, not at 1/200', () => {
  expect(isBeyondSync({ ...EXIF, seconds: 1 / 250 }, 'flash')).toBe(true);
  expect(isBeyondSync({ ...EXIF, seconds: 1 / 200 }, 'flash')).toBe(false);
  expect(isBeyondSync({ ...EXIF, seconds: 1 / 250 }, 'continuous')).toBe(false);
});
