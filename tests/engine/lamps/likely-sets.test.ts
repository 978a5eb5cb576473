import { expect, test } from 'vitest';
import { likelySets } from '../../../src/engine/lamps/likely-sets.ts';
import { choleskySolve } from '../../../src/engine/numeric/cholesky-solve.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { gramMatrix, randomMatrix } from '../numeric/random-matrix.ts';
import { fittedOf, modeOf } from './mode-of.ts';
import { lightOf, setOf } from './set-of.ts';

/** A set that shows its mode by the camera's place and its point by the light's. */
const showing =
  (mode: number) =>
  ([x, y, aimX]: Float64Array) =>
    setOf([lightOf({ x: x!, y: y ?? 0, aimX: aimX ?? 0 })], { cameraDistance: mode });

test('the first is the best fit, and as many are drawn as asked for', () => {
  const fit = fittedOf([modeOf(showing(1), [0.2, 0.1], 1, [0.3, -0.2])]);
  for (const count of [1, 2, 48]) {
    const sets = likelySets(fit, count);
    expect(sets).toHaveLength(count);
    expect(sets[0]).toBe(fit.set);
  }
});

test('modes are drawn as often as they weigh, to one draw', () => {
  const random = seededRandom(7);
  for (let i = 0; i < 40; i++) {
    const raw = Array.from({ length: 1 + (i % 4) }, () => 0.05 + random.uniform()).sort((a, b) => b - a);
    const sum = raw.reduce((total, each) => total + each, 0);
    const weights = raw.map((each) => each / sum);
    const fit = fittedOf(weights.map((weight, mode) => modeOf(showing(mode), [0.1, 0.1], weight)));
    const count = 10 + Math.floor(200 * random.uniform());
    const sets = likelySets(fit, count);
    expect(sets).toHaveLength(count);
    weights.forEach((weight, mode) => {
      const drawn = sets.slice(1).filter(({ cameraDistance }) => cameraDistance === mode).length;
      expectWithin(drawn, weight * (count - 1), 1);
    });
  }
});

test('draws spread about the best point as the inverse of the information says, each figure with each', () => {
  const information = gramMatrix(randomMatrix(5, 3, 11), 3);
  const mode = { ...modeOf(showing(1), [1, 1, 1], 1, [2, -1, 0.5]), information };
  const drawn = likelySets(fittedOf([mode]), 20_001)
    .slice(1)
    .map(({ lights: [light] }) => [light!.x - 2, light!.y + 1, light!.aimX - 0.5]);
  const covariance = [0, 1, 2].map((column) => {
    const unit = new Float64Array(3);
    unit[column] = 1;
    return choleskySolve(information, unit);
  });
  for (const i of [0, 1, 2])
    for (const j of [0, 1, 2]) {
      const found = drawn.reduce((sum, off) => sum + off[i]! * off[j]!, 0) / drawn.length;
      const scale = Math.sqrt(covariance[i]![i]! * covariance[j]![j]!);
      expectWithin(found / scale, covariance[i]![j]! / scale, 0.04);
    }
});

test('the same fit draws the same sets', () => {
  const likely = () => fittedOf([modeOf(showing(1), [0.2, 0.1], 0.7), modeOf(showing(2), [0.1, 0.3], 0.3)]);
  expect(likelySets(likely(), 60)).toEqual(likelySets(likely(), 60));
  const places = new Set(likelySets(likely(), 60).map(({ lights: [light] }) => light!.x));
  expect(places.size).toBe(60);
});
