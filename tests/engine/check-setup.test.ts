import { expect, test } from 'vitest';
import { checkSetup } from '../../src/engine/check-setup.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';

const KNOWN: Setup = {
  arrangement: 'two-lamps',
  light: 'flash',
  frameWidthMm: 1200,
  lampDistanceMm: [900, null],
  lampWidthMm: 300,
  cameraDistanceMm: 2500,
  room: { leftMm: 1000, rightMm: 1000, upMm: 500, downMm: 0, reachMm: null },
};

test('checkSetup lets a set-up pass of which nothing is known, or much', () => {
  expect(() => checkSetup(UNKNOWN_SETUP)).not.toThrow();
  expect(() => checkSetup(KNOWN)).not.toThrow();
});

test.each([
  [
    { arrangement: 'outdoors' },
    'arrangement is one of behind-sheet, bounced, two-lamps, panel, not outdoors',
  ],
  [{ light: 'candle' }, 'light is "flash", "continuous" or null, not candle'],
  [{ frameWidthMm: 0 }, 'frameWidthMm is above 0 to 1000000, or null, not 0'],
  [{ lampWidthMm: Number.NaN }, 'lampWidthMm'],
  [{ cameraDistanceMm: undefined }, 'cameraDistanceMm is above 0 to 1000000, or null, not undefined'],
  [{ cameraDistanceMm: 1e300 }, 'cameraDistanceMm'],
  [{ lampDistanceMm: [900, -1] }, 'lampDistanceMm[1]'],
  [{ lampDistanceMm: new Array(2) }, 'lampDistanceMm[0]'],
  [{ lampDistanceMm: null }, 'lampDistanceMm, a list'],
  [{ room: null }, 'room, an object'],
  [{ room: { ...KNOWN.room, upMm: -5 } }, 'room.upMm is from 0 to'],
] as const)('checkSetup refuses %o and says what it is', (part, says) => {
  expect(() => checkSetup({ ...KNOWN, ...part } as unknown as Setup)).toThrow(says);
});

test('checkSetup refuses what is no set-up at all', () => {
  for (const none of [null, undefined, [], 'panel'])
    expect(() => checkSetup(none as unknown as Setup)).toThrow(TypeError);
});
