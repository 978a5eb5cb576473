import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { lampRays } from './lamp-rays.ts';
import { seenLight } from './seen-light.ts';
import { plainLamp, type StudioLamp, type StudioSet } from './studio-set.ts';

// The tables of textbook radiometry stand in published-light.test.ts.

const wall: StudioSet = {
  frameWidthMm: 1000,
  frameHeightMm: 1000,
  cameraDistanceMm: 2000,
  background: { kind: 'wall' },
  lamps: [],
  spill: null,
  lens: null,
  whiteBalance: { kind: 'daylight', kelvin: 5500 },
  exposure: { factor: 1 },
};
const point = { kind: 'disc', diameterMm: 0.01 } as const;
const lightOf = (changes: Partial<StudioLamp>) => seenLight(wall, lampRays(plainLamp(changes), 1));

test('a point throws I cos θ / d² (IES definition 9.1.1 and the cosine law)', () => {
  const beam = { kind: 'cosine-power', power: 0 } as const;
  for (const [distanceMm, xMm, yMm] of [
    [1000, 0, 0],
    [500, 0, 0],
    [700, 400, 200],
  ] as const) {
    const [d, x, y] = [distanceMm / 1000, xMm / 1000, yMm / 1000];
    const square = x * x + y * y + d * d;
    const light = lightOf({ distanceMm, face: point, beam });
    expectWithin(light(xMm, yMm), d / Math.sqrt(square) / square, 1e-9); // the point is 0.01 mm across
  }
});

test('a turned lamp is brightest near the spot it aims at, never farther out', () => {
  const beam = { kind: 'flat-topped', halfDeg: 15, softDeg: 3 } as const;
  const light = lightOf({ xMm: 0, aimXMm: 500, distanceMm: 1000, face: point, beam });
  const along = Array.from({ length: 141 }, (_, i) => light(-400 + 10 * i, 0));
  const brightest = -400 + 10 * along.indexOf(Math.max(...along));
  expect(brightest > 200 && brightest < 500, `brightest at ${brightest} mm`).toBe(true);
});
