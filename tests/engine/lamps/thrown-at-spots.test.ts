import { expect, test } from 'vitest';
import { facePoints } from '../../../src/engine/lamps/face-points.ts';
import { lightThrown, lightThrownSlopes, placedFace } from '../../../src/engine/lamps/light-thrown.ts';
import type { LitSet, SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { FIGURES, throwFigures } from '../../../src/engine/lamps/throw-figures.ts';
import { thrownAtSpots } from '../../../src/engine/lamps/thrown-at-spots.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from './set-of.ts';

const SPOTS = {
  x: Float64Array.of(-0.5, -0.2, 0, 0.1, 0.37, 0.5),
  y: Float64Array.of(-1 / 3, 0.3, 0, -0.1, 0.22, 1 / 3),
};
const COUNT = SPOTS.x.length;

const random = seededRandom(44);
const between = (low: number, high: number) => low + (high - low) * random.uniform();

function anyLight(): SetLight {
  const size = between(0, 0.5);
  return lightOf({
    x: between(-0.8, 0.8),
    y: between(-0.5, 0.5),
    distance: between(0.4, 2.5),
    aimX: between(-0.4, 0.4),
    aimY: between(-0.3, 0.3),
    face:
      random.uniform() < 0.7
        ? { kind: 'disc', radius: size }
        : { kind: 'rectangle', width: size, height: between(0.1, 0.6) },
    beamPower: between(0, 5),
    beamEdge: random.uniform() < 0.8 ? { angleRad: between(0.4, 1.4), steepness: between(2, 20) } : null,
  });
}

function anySet(light: SetLight): LitSet {
  const sheet = random.uniform() < 0.7 ? { forwardShare: between(0, 0.6), lobeRad: between(0.1, 0.6) } : null;
  return setOf([light], { sheet, cameraDistance: between(1, 4) });
}

test('how a light changes with each of its figures is what central differences say', () => {
  const STEP = 1e-5;
  let worst = 0;
  for (let round = 0; round < 300; round++) {
    const light = anyLight();
    const figures = throwFigures(anySet(light), light);
    const points = facePoints(light.face, light.distance);
    const thrown = (of: Float64Array) => {
      const into = new Float64Array(COUNT);
      lightThrown(of, placedFace(of, points), SPOTS, into);
      return into;
    };
    const [values, slopes] = [new Float64Array(COUNT), new Float64Array(FIGURES * COUNT)];
    lightThrownSlopes(figures, placedFace(figures, points), SPOTS, values, slopes);
    const plain = thrown(figures);
    for (let i = 0; i < COUNT; i++) expectWithin(values[i]!, plain[i]!, 1e-12 * plain[i]!);
    for (let k = 0; k < FIGURES; k++) {
      if (!Number.isFinite(figures[k])) continue; // a beam without an edge
      const moved = (by: number) => thrown(figures.map((value, j) => (j === k ? value + by : value)));
      const [before, after] = [moved(-STEP), moved(STEP)];
      for (let i = 0; i < COUNT; i++) {
        const wanted = (after[i]! - before[i]!) / (2 * STEP);
        const off = Math.abs(slopes[k * COUNT + i]! - wanted) / (plain[i]! + Math.abs(wanted));
        worst = Math.max(worst, off || 0);
        expect(off < 1e-4 || plain[i]! < 1e-12, `figure ${k} of light ${round}: ${off}`).toBe(true);
      }
    }
  }
  console.log(`measured: slopes of a light are within ${worst.toExponential(1)} of central differences`);
});

test('the light next to one is that to first order, whichever figures of the set move', () => {
  let worst = 0;
  for (let round = 0; round < 200; round++) {
    const light = anyLight();
    const set = anySet(light);
    const STEP = 1e-6;
    const moved: SetLight = {
      ...light,
      x: light.x + STEP,
      distance: light.distance - STEP,
      aimY: light.aimY - STEP,
      face: light.face.kind === 'disc' ? { kind: 'disc', radius: light.face.radius + STEP } : light.face,
      beamPower: light.beamPower + STEP,
      beamEdge: light.beamEdge && { ...light.beamEdge, angleRad: light.beamEdge.angleRad + STEP },
    };
    const next = { ...set, cameraDistance: set.cameraDistance + STEP };
    if (facePoints(moved.face, moved.distance) !== facePoints(light.face, light.distance)) continue;
    const [one, other] = [thrownAtSpots(SPOTS), thrownAtSpots(SPOTS)];
    one.about(set, light);
    const here = one.near(set, light).slice();
    const near = one.near(next, moved).slice();
    const exact = other.of(next, moved);
    for (let i = 0; i < COUNT; i++) {
      const off = Math.abs(near[i]! - exact[i]!) / exact[i]!;
      const step = Math.abs(exact[i]! - here[i]!) / exact[i]!;
      worst = Math.max(worst, off / STEP || 0);
      expect(
        off < 1e-9 + 1e-3 * step || here[i]! < 1e-9,
        `light ${round}: off by ${off} of a step of ${step}`,
      ).toBe(true);
    }
  }
  console.log(`measured: light next to one is off by ${worst.toExponential(1)} of a step of its figures`);
});
