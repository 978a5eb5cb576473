import { describe, expect, test } from 'vitest';
import { knownLengths } from '../../../src/engine/lamps/known-lengths.ts';
import { type Parameter, parameterReader } from '../../../src/engine/lamps/parameters.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';

/** Every length of a set-up of two lights, at what is expected or where the named parameters say. */
function lengthsOf(changes: Partial<Setup>, off: Readonly<Record<string, number>> = {}, standsBack = false) {
  const list: Parameter[] = [];
  const reader = parameterReader(list);
  const build = (point: Float64Array) => {
    const known = knownLengths({ ...UNKNOWN_SETUP, ...changes }, reader(point), standsBack);
    return {
      left: known.lampDistance(0),
      right: known.lampDistance(1),
      radius: known.lampRadius(),
      camera: known.cameraDistance(),
    };
  };
  build(new Float64Array(0));
  return {
    names: list.map(({ name }) => name),
    ...build(Float64Array.from(list, ({ name }) => off[name] ?? 0)),
  };
}

test('entered lengths come out in frame widths', () => {
  const random = seededRandom(3);
  const mm = () => 100 + 2000 * random.uniform();
  for (let i = 0; i < 50; i++) {
    const [width, left, right, across, camera] = [mm(), mm(), mm(), mm(), mm()];
    const found = lengthsOf({
      frameWidthMm: width,
      lampDistanceMm: [left, right],
      lampWidthMm: across,
      cameraDistanceMm: camera,
    });
    expectWithin(found.left, left / width, 1e-12);
    expectWithin(found.right, right / width, 1e-12);
    expectWithin(found.radius, across / 2 / width, 1e-12);
    expectWithin(found.camera, camera / width, 1e-12);
    expect(found.names).not.toContain('frame width');
  }
});

test('what was entered is held more tightly than what was not', () => {
  const wide = { 'light 0 distance': 1, 'light radius': 1, camera: 1 };
  const unknown = lengthsOf({}, wide);
  const taped = lengthsOf(
    { frameWidthMm: 600, lampDistanceMm: [600], lampWidthMm: 240, cameraDistanceMm: 1200 },
    wide,
  );
  const usual = lengthsOf({});
  for (const [one, expected] of [
    ['left', 1],
    ['radius', 0.2],
    ['camera', 2],
  ] as const) {
    expectWithin(taped[one] / expected, Math.exp(0.12), 1e-12);
    expect(unknown[one] / usual[one]).toBeGreaterThan(1.4);
  }
});

describe('where the frame’s width is unknown', () => {
  const entered = { lampDistanceMm: [900, 750], lampWidthMm: 300, cameraDistanceMm: 1800 };

  test.each([-1.5, 0, 2])('entered lengths keep their proportions (width off by %d)', (off) => {
    const { left, right, radius, camera, names } = lengthsOf(entered, { 'frame width': off });
    expect(names[0]).toBe('frame width');
    expectWithin(right / left, 750 / 900, 1e-12);
    expectWithin(radius / left, 150 / 900, 1e-12);
    expectWithin(camera / left, 2, 1e-12);
  });

  test('the first entered one is expected to be a usual one; a wider frame makes all of them smaller', () => {
    const usual = lengthsOf({});
    expectWithin(lengthsOf(entered).left, usual.left, 1e-12);
    expectWithin(lengthsOf({ cameraDistanceMm: 1800 }).camera, usual.camera, 1e-12);
    expect(lengthsOf(entered, { 'frame width': 1 }).left).toBeLessThan(usual.left);
  });

  test('a light’s width alone says nothing of the frame’s', () => {
    const found = lengthsOf({ lampWidthMm: 300 });
    expect(found.names).not.toContain('frame width');
    expectWithin(found.radius, lengthsOf({}).radius, 1e-12);
  });
});

describe('the second light’s distance', () => {
  test.each([
    ['neither is known', []],
    ['only the first is', [900]],
    ['only the second is', [null, 900]],
  ] as const)('follows the first where %s', (_, lampDistanceMm) => {
    for (const off of [-1, 0, 2]) {
      const { left, right } = lengthsOf({ frameWidthMm: 600, lampDistanceMm }, { 'light 0 distance': off });
      expectWithin(right, left, 1e-12);
      if (lampDistanceMm.length > 0 && off === 0) expectWithin(left, 1.5, 1e-12);
    }
  });

  test('is its own where both are known', () => {
    const { left, right } = lengthsOf(
      { frameWidthMm: 600, lampDistanceMm: [600, 1200] },
      { 'light 0 distance': 2 },
    );
    expectWithin(right, 2, 1e-12);
    expectWithin(left, Math.exp(2 * 0.12), 1e-12);
  });
});

test('an unknown light that stands back is expected farther off, and an entered one where it was taped', () => {
  expectWithin(lengthsOf({}, {}, true).left, 2.1, 1e-12);
  expect(lengthsOf({}).left).toBeLessThan(1.5);
  expectWithin(lengthsOf({ frameWidthMm: 600, lampDistanceMm: [600] }, {}, true).left, 1, 1e-12);
});
