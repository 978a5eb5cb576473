import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { lampRays } from './lamp-rays.ts';
import { seenLight } from './seen-light.ts';
import { plainLamp, type StudioLamp, type StudioSet } from './studio-set.ts';

// Closed forms are textbook radiometry; the numbers checked were worked out separately by quadrature.

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
const even = { kind: 'cosine-power', power: 0 } as const;
const lambertian = { kind: 'cosine-power', power: 1 } as const;

test('a point of constant intensity falls over a plane as cos³, a small Lambertian one as cos⁴', () => {
  // published stops at 5 to 45 degrees
  const rows = [
    [5, -0.017, -0.022],
    [10, -0.066, -0.088],
    [15, -0.15, -0.2],
    [20, -0.269, -0.359],
    [30, -0.623, -0.83],
    [45, -1.5, -2],
  ] as const;
  for (const [degrees, cubeEv, fourthEv] of rows) {
    const off = 1000 * Math.tan((degrees * Math.PI) / 180);
    for (const [beam, ev] of [
      [even, cubeEv],
      [lambertian, fourthEv],
    ] as const) {
      const light = lightOf({ distanceMm: 1000, face: point, beam });
      expectWithin(Math.log2(light(off, 0) / light(0, 0)), ev, 0.0006);
    }
  }
});

test('light goes by the inverse square, within 1 % from five times the size of the face on', () => {
  for (const [diameters, errorPercent] of [
    [1, 25],
    [2, 6.25],
    [3, 2.78],
    [5, 1],
  ] as const) {
    const light = lightOf({
      distanceMm: diameters * 400,
      face: { kind: 'disc', diameterMm: 400 },
      beam: lambertian,
    });
    const asPoint = 1e6 / (diameters * 400) ** 2;
    expectWithin((asPoint / light(0, 0) - 1) * 100, errorPercent, 0.006);
  }
});

test('a disc lights a parallel plane by its view factor, on and off its axis', () => {
  // plane distance, radius, offset, factor: closed form of an element to a parallel disc, checked by quadrature
  for (const [h, r, a, factor] of [
    [1, 1, 1, 0.276393],
    [1, 0.5, 1, 0.0658784],
    [2, 1, 0.5, 0.184704],
    [2, 1, 0, 0.2],
  ] as const) {
    const light = lightOf({
      distanceMm: h * 1000,
      face: { kind: 'disc', diameterMm: 2000 * r },
      beam: lambertian,
    });
    expectWithin(light(a * 1000, 0) * r * r, factor, 2e-6);
  }
});

test('a square panel lights a parallel plane by its view factor', () => {
  // centred 1 × 1 face: distance, light / (π L); then stops off the centre at distance 1
  const face = { kind: 'rectangle', widthMm: 1000, heightMm: 1000 } as const;
  for (const [distance, factor] of [
    [0.5, 0.554126],
    [1, 0.239456],
    [2, 0.073478],
    [5, 0.012565],
  ] as const) {
    const light = lightOf({ distanceMm: distance * 1000, face, beam: lambertian });
    // eight points each way leave 1e-5 of the light where the face is twice as wide as it is far
    expectWithin(light(0, 0) / Math.PI, factor, distance < 1 ? 6e-6 : 1e-6);
  }
  const light = lightOf({ distanceMm: 1000, face, beam: lambertian });
  for (const [off, ev] of [
    [0.25, -0.103],
    [0.5, -0.409],
    [1, -1.505],
  ] as const) {
    expectWithin(Math.log2(light(off * 1000, 0) / light(0, 0)), ev, 0.0006);
  }
  // under one corner: F(1, 1, 1)
  expectWithin(light(500, 500) / Math.PI, 0.138531606, 1e-8);
});

test('two equal lamps are flattest at half their distance either side (even) or 0.4472 of it (Lambertian)', () => {
  const curvature = (share: number, beam: typeof even | typeof lambertian) => {
    const sum = (xMm: number) =>
      [-1, 1].reduce(
        (total, side) =>
          total + lightOf({ xMm: side * share * 1000, distanceMm: 1000, face: point, beam })(xMm, 0),
        0,
      );
    return (sum(20) + sum(-20) - 2 * sum(0)) / sum(0) / 0.02 ** 2;
  };
  for (const [share, beam] of [
    [0.5, even],
    [1 / Math.sqrt(5), lambertian],
  ] as const) {
    expectWithin(curvature(share, beam), 0, 0.01);
    expect(curvature(share - 0.05, beam)).toBeLessThan(-0.1);
    expect(curvature(share + 0.05, beam)).toBeGreaterThan(0.1);
  }
});

test('two lamps at half their distance light a width W to the published range', () => {
  for (const [distance, rangeEv] of [
    [0.5, 0.69],
    [1, 0.08],
    [1.5, 0.018],
    [2, 0.006],
  ] as const) {
    const lights = [-1, 1].map((side) =>
      lightOf({ xMm: side * distance * 500, distanceMm: distance * 1000, face: point, beam: even }),
    );
    const along = Array.from({ length: 201 }, (_, i) =>
      Math.log2(lights.reduce((sum, light) => sum + light(-500 + 5 * i, 0), 0)),
    );
    expectWithin(Math.max(...along) - Math.min(...along), rangeEv, distance < 1 ? 0.005 : 0.0006);
  }
});

test('a turned lamp is brightest near the spot it aims at, never farther out', () => {
  const beam = { kind: 'flat-topped', halfDeg: 15, softDeg: 3 } as const;
  const light = lightOf({ xMm: 0, aimXMm: 500, distanceMm: 1000, face: point, beam });
  const along = Array.from({ length: 141 }, (_, i) => light(-400 + 10 * i, 0));
  const brightest = -400 + 10 * along.indexOf(Math.max(...along));
  expect(brightest > 200 && brightest < 500, `brightest at ${brightest} mm`).toBe(true);
});
