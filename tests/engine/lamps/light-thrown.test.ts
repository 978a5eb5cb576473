import { describe, expect, test } from 'vitest';
import { facePoints } from '../../../src/engine/lamps/face-points.ts';
import type { SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { seenLight } from '../../../src/engine/lamps/seen-light.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from './set-of.ts';

/*
 * Textbook radiometry. Values were worked out by quadrature and closed form when the project's table of standards was
 * made (section 3); those called published carry their source.
 */

const thrown = (changes: Partial<SetLight>) => {
  const light = lightOf(changes);
  return seenLight(setOf([light]), light);
};
const stops = (light: (x: number, y: number) => number, x: number, y = 0) =>
  Math.log2(light(x, y) / light(0, 0));
const EVEN = { beamPower: 0 };
const LAMBERTIAN = { beamPower: 1 };

describe('a point of light over a plane', () => {
  test.each([
    [5, -0.017, -0.022],
    [10, -0.066, -0.088],
    [15, -0.15, -0.2],
    [20, -0.269, -0.359],
    [25, -0.426, -0.568],
    [30, -0.623, -0.83],
    [40, -1.154, -1.538],
    [45, -1.5, -2],
  ])(
    'falls as cos³ or cos⁴ by %i° (cosine-fourth law: D. A. Kerr 2007, its derivation)',
    (degrees, cube, fourth) => {
      const off = Math.tan((degrees * Math.PI) / 180);
      expectWithin(stops(thrown(EVEN), off), cube, 0.0006);
      expectWithin(stops(thrown(LAMBERTIAN), off), fourth, 0.0006);
    },
  );

  test('goes by the inverse square of its distance', () => {
    const at = (distance: number) => thrown({ distance })(0, 0);
    for (const distance of [0.5, 2, 4]) expectWithin(at(distance) * distance ** 2, at(1), 1e-12);
  });

  test('from the side: near edge over far edge is 2 log2((a + W) / a) along the normal of a row of spots', () => {
    // standards section 3.2: E = I / d² for a light far to the side, the incidence taken out
    for (const [a, ev] of [
      [0.5, 3.17],
      [1, 2],
      [2, 1.17],
      [3, 0.83],
      [5, 0.526],
      [10, 0.275],
    ] as const) {
      const [near, far] = [thrown({ distance: a })(0, 0), thrown({ distance: a + 1 })(0, 0)];
      expectWithin(Math.log2(near / far), ev, 0.0006);
    }
  });

  test('aimed aside is strongest where a cosᵐ beam and the distance say', () => {
    const light = thrown({ aimX: 0.5, beamPower: 20 });
    const beam = (x: number) => {
      const cosine = (x * 0.5 + 1) / Math.hypot(x, 1) / Math.hypot(0.5, 1);
      return cosine ** 20 / Math.hypot(x, 1) ** 3;
    };
    for (const x of [-0.4, 0, 0.3, 0.6]) expectWithin(light(x, 0) / light(0, 0), beam(x) / beam(0), 1e-12);
  });
});

describe('a disc', () => {
  // E = π L sin²θ; the light of a face of strength 1 is r²/(r² + d²) of π L, here times (r² + d²)/r² ÷ d²
  const onAxis = (radius: number, distance: number) =>
    thrown({ distance, face: { kind: 'disc', radius } })(0, 0) * radius ** 2;

  test.each([
    [0.5, 0.5],
    [1, 0.2],
    [2, 0.058824],
    [3, 0.027027],
    [5, 0.009901],
    [10, 0.002494],
  ])('lights the spot before it from %d diameters off by %d π L', (diameters, share) => {
    expectWithin(onAxis(0.5, diameters) / share, 1, 0.0015);
  });

  test('is a point within 1 % from five times its size on, as the IES says (definition 9.1.1)', () => {
    for (const [diameters, percent] of [
      [1, 25],
      [2, 6.25],
      [3, 2.78],
      [5, 1],
    ] as const)
      expectWithin((0.25 / diameters ** 2 / onAxis(0.5, diameters) - 1) * 100, percent, 0.2);
  });

  test.each([
    [1, 1, 1, 0.276393],
    [1, 0.5, 1, 0.0658784],
    [2, 1, 0.5, 0.184704],
  ])('at h %d, r %d, a %d aside gives the view factor %d', (height, radius, aside, factor) => {
    const light = thrown({ distance: height, face: { kind: 'disc', radius } });
    expectWithin((light(aside, 0) * radius ** 2) / factor, 1, 0.003);
  });
});

describe('a rectangle', () => {
  const face = (width: number, height: number) => ({ kind: 'rectangle', width, height }) as const;

  test.each([
    [0.5, 0.554126],
    [1, 0.239456],
    [2, 0.073478],
    [3, 0.034107],
    [5, 0.012565],
  ])('one by one, %d off, lights the spot before its middle by %d π L', (distance, share) => {
    expectWithin(thrown({ distance, face: face(1, 1) })(0, 0) / Math.PI / share, 1, 0.003);
  });

  test('lights a spot under its corner as its view factor says (1 × 1 from 1 off: 0.138532)', () => {
    expectWithin(thrown({ face: face(1, 1) })(0.5, 0.5) / Math.PI / 0.138531606, 1, 0.002);
  });

  test('falls off as a plane before it is slid along', () => {
    const light = thrown({ face: face(1, 1) });
    for (const [x, ev] of [
      [0.25, -0.103],
      [0.5, -0.409],
      [1, -1.505],
    ] as const)
      expectWithin(stops(light, x), ev, 0.002);
  });
});

test('two equal lights are flattest in the middle at half their distance aside, and their range is as worked out', () => {
  const pair = (distance: number, aside: number) => {
    const [left, right] = [-aside, aside].map((x) => thrown({ ...EVEN, x, distance }));
    return (x: number) => left!(x, 0) + right!(x, 0);
  };
  const bend = (aside: number) => {
    const light = pair(1, aside);
    return (light(0.01) - 2 * light(0) + light(-0.01)) / light(0) / 1e-4;
  };
  expectWithin(bend(0.5), 0, 0.001);
  expect(bend(0.45)).toBeLessThan(-0.05);
  expect(bend(0.55)).toBeGreaterThan(0.05);
  for (const [distance, range] of [
    [0.5, 0.69],
    [1, 0.08],
    [1.5, 0.018],
    [2, 0.006],
  ] as const) {
    const light = pair(distance, distance / 2);
    const levels = Array.from({ length: 401 }, (_, i) => Math.log2(light(i / 400 - 0.5)));
    expectWithin(Math.max(...levels) - Math.min(...levels), range, 0.006);
  }
});

test('two Lambertian heads are flattest at d/√5 aside', () => {
  const bend = (aside: number) => {
    const [left, right] = [-aside, aside].map((x) => thrown({ ...LAMBERTIAN, x, aimX: x }));
    const light = (x: number) => left!(x, 0) + right!(x, 0);
    return (light(0.01) - 2 * light(0) + light(-0.01)) / light(0) / 1e-4;
  };
  expectWithin(bend(1 / Math.sqrt(5)), 0, 0.001);
});

test('a light behind a sheet is within a third of a stop from 1.2 to 1.4 diagonals, a tenth from 2.3 to 2.7', () => {
  const corner = (diagonals: number, beam: Partial<SetLight>) => {
    const diagonal = Math.hypot(1, 2 / 3);
    return -stops(thrown({ ...beam, distance: diagonals * diagonal }), 0.5, 1 / 3);
  };
  expectWithin(corner(1.23, EVEN), 1 / 3, 0.005);
  expectWithin(corner(1.43, LAMBERTIAN), 1 / 3, 0.005);
  expectWithin(corner(2.3, EVEN), 0.1, 0.005);
  expectWithin(corner(2.7, LAMBERTIAN), 0.1, 0.005);
  for (const [diagonals, even, lambertian] of [
    [0.5, 1.5, 2],
    [0.75, 0.8, 1.06],
    [1, 0.48, 0.64],
    [1.5, 0.23, 0.3],
    [2, 0.13, 0.18],
    [3, 0.06, 0.08],
  ] as const) {
    expectWithin(corner(diagonals, EVEN), even, 0.006);
    expectWithin(corner(diagonals, LAMBERTIAN), lambertian, 0.006);
  }
});

test('facePoints(face, distance) share out all of the light about the middle, and more finely the closer the face', () => {
  for (const distance of [0.3, 1, 3])
    for (const face of [
      { kind: 'disc', radius: 0.4 },
      { kind: 'rectangle', width: 0.6, height: 0.4 },
    ] as const) {
      const points = facePoints(face, distance);
      const sum = (of: (point: (typeof points)[number]) => number) =>
        points.reduce((total, point) => total + of(point), 0);
      expectWithin(
        sum(([, , share]) => share),
        1,
        1e-12,
      );
      expectWithin(
        sum(([right, , share]) => right * share),
        0,
        1e-12,
      );
      const spread = face.kind === 'disc' ? face.radius ** 2 / 4 : face.width ** 2 / 12;
      expectWithin(
        sum(([right, , share]) => right * right * share),
        spread,
        1e-12,
      );
    }
  expect(facePoints({ kind: 'disc', radius: 0.2 }, 1)).toHaveLength(7);
  expect(facePoints({ kind: 'disc', radius: 0.2 }, 0.2).length).toBeGreaterThan(50);
});

test('few points do for a small face: seven of a disc are within 0.2 % of many, all over the frame', () => {
  let worst = 0;
  for (const beamPower of [1, 3, 6])
    for (const x of [0, 0.3, 0.6]) {
      const few = thrown({ x, aimX: 0, beamPower, face: { kind: 'disc', radius: 0.35 } });
      const rings = Array.from({ length: 40 }, (_, i) => 0.35 * Math.sqrt((i + 0.5) / 40));
      for (const [atX, atY] of [
        [0, 0],
        [0.5, 0.33],
        [-0.5, 0],
      ] as const) {
        // many small faces instead of one large: on the disc's own plane, tilted as it is
        const [axisX, axisZ] = [-x / Math.hypot(x, 1), 1 / Math.hypot(x, 1)];
        const many = rings.reduce((sum, ring) => {
          for (let k = 0; k < 40; k++) {
            const angle = (k * Math.PI) / 20;
            const [right, down] = [ring * Math.cos(angle), ring * Math.sin(angle)];
            const place = [x + right * axisZ, down, -right * axisX] as const;
            const to = [atX - place[0], atY - place[1], 1 - place[2]] as const;
            const square = to[0] ** 2 + to[1] ** 2 + to[2] ** 2;
            const cosine = (to[0] * axisX + to[2] * axisZ) / Math.sqrt(square);
            sum += (cosine ** beamPower * to[2]) / square ** 1.5 / 1600;
          }
          return sum;
        }, 0);
        worst = Math.max(worst, Math.abs(few(atX, atY) / many - 1));
      }
    }
  console.log(`measured: seven points of a disc against 1600: ${(100 * worst).toFixed(3)} % at most`);
  expect(worst).toBeLessThan(0.002);
});
