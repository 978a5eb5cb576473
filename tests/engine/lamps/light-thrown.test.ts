import { describe, expect, test } from 'vitest';
import { facePoints } from '../../../src/engine/lamps/face-points.ts';
import type { SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { seenLight } from '../../../src/engine/lamps/seen-light.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from './set-of.ts';

/* The tables of textbook radiometry stand in published-light.test.ts. */

const thrown = (changes: Partial<SetLight>) => {
  const light = lightOf(changes);
  return seenLight(setOf([light]), light);
};

describe('a point of light over a plane', () => {
  test('goes by the inverse square of its distance', () => {
    const at = (distance: number) => thrown({ distance })(0, 0);
    for (const distance of [0.5, 2, 4]) expectWithin(at(distance) * distance ** 2, at(1), 1e-12);
  });

  test('throws I cos θ / d² at a slant (IES definition 9.1.1 and the cosine law)', () => {
    const light = thrown({ beamPower: 0, distance: 0.7 });
    const square = 0.4 ** 2 + 0.2 ** 2 + 0.7 ** 2;
    expectWithin(light(0.4, 0.2), 0.7 / Math.sqrt(square) / square, 1e-12);
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

test('facePoints(face, distance) share out all of the light about the middle, and more finely the closer the face', () => {
  for (const distance of [0.3, 1, 3, 30])
    for (const face of [
      { kind: 'disc', radius: 0.4 },
      { kind: 'rectangle', width: 0.6, height: 0.4 },
    ] as const) {
      const { right, down, share } = facePoints(face, distance);
      const sum = (of: (i: number) => number) => share.reduce((total, _, i) => total + of(i), 0);
      expectWithin(
        sum((i) => share[i]!),
        1,
        1e-12,
      );
      for (const side of [right, down]) {
        expectWithin(
          sum((i) => side[i]! * share[i]!),
          0,
          1e-12,
        );
        // of a disc of radius 1, and of a square of side 1
        expectWithin(
          sum((i) => side[i]! ** 2 * share[i]!),
          face.kind === 'disc' ? 1 / 4 : 1 / 12,
          1e-12,
        );
      }
    }
  expect(facePoints({ kind: 'disc', radius: 0.2 }, 1).share).toHaveLength(7);
  expect(facePoints({ kind: 'disc', radius: 0.2 }, 0.2).share.length).toBeGreaterThan(50);
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
