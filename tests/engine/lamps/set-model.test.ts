import { describe, expect, test } from 'vitest';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import { setLight } from '../../../src/engine/lamps/set-light.ts';
import { type FamilyTraits, setModel } from '../../../src/engine/lamps/set-model.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';

const ASPECT = 2 / 3;
const CAST = { mired: 12, duv: -0.002 };
const ARRANGEMENTS = ['behind-sheet', 'bounced', 'two-lamps', 'panel'] as const;

const modelOf = (
  arrangement: Setup['arrangement'],
  traits: FamilyTraits = {},
  entered: Partial<Setup> = {},
) => setModel({ ...UNKNOWN_SETUP, ...entered, arrangement }, ASPECT, CAST, traits);
const namesOf = (model: ReturnType<typeof modelOf>) => model.parameters.map(({ name }) => name);
const expected = (model: ReturnType<typeof modelOf>) =>
  model.setAt(new Float64Array(model.parameters.length));

/** Of all the light in the middle of the frame, the part that the spill is. */
function spillShare(set: LitSet): number {
  return 1 - setLight({ ...set, spill: null })(0, 0)[1] / setLight(set)(0, 0)[1];
}

test.each(ARRANGEMENTS)(
  'spill of %s is never more than the lights throw before themselves',
  (arrangement) => {
    const model = modelOf(arrangement);
    const at = namesOf(model).indexOf('spill level');
    for (const deviations of [0, 2, 5, 50]) {
      const point = new Float64Array(model.parameters.length);
      point[at] = deviations;
      const { lights, panel, spill } = model.setAt(point);
      const thrown = lights.reduce(
        (sum, { strengthEv, distance }) => sum + 2 ** strengthEv / distance ** 2,
        0,
      );
      expect(2 ** spill!.levelEv).toBeLessThanOrEqual((panel ? 2 ** panel.levelEv : thrown) * (1 + 1e-12));
    }
  },
);

describe('the set that is expected', () => {
  test.each(ARRANGEMENTS)(
    'of %s has the frame’s colour, little spill without a slope, and next to no lens',
    (arrangement) => {
      const set = expected(modelOf(arrangement));
      for (const { colour } of [...set.lights, ...(set.panel ? [set.panel] : [])])
        expect(colour).toEqual(CAST);
      expect(set.spill).toMatchObject({ rightEv: 0, downEv: 0 });
      expect(spillShare(set)).toBeGreaterThan(0.005);
      expect(spillShare(set)).toBeLessThan(0.05);
      expect(set.lens!.squareEv + set.lens!.fourthEv).toBeLessThan(0.01);
      expect(set.lens!.corner).toEqual({ mired: 0, duv: 0 });
      expect(set.aspect).toBe(ASPECT);
      expect(set).toMatchObject({ tint: null, rim: null });
      expect(set.sheet === null).toBe(arrangement !== 'behind-sheet');
      expect(set.panel === null).toBe(arrangement !== 'panel');
      expect(set.lights).toHaveLength(
        { 'behind-sheet': 1, bounced: 1, 'two-lamps': 2, panel: 0 }[arrangement],
      );
    },
  );

  test.each(['behind-sheet', 'bounced'] as const)(
    '%s: a light before the middle that looks straight at it',
    (arrangement) => {
      const [light] = expected(modelOf(arrangement)).lights;
      expect(light).toMatchObject({ x: 0, y: 0, aimX: 0, aimY: 0 });
    },
  );

  test('two lights alike on either side, both aimed at the middle', () => {
    const [left, right] = expected(modelOf('two-lamps')).lights;
    expect(left!.x).toBeLessThan(-0.5);
    expect({ ...left, x: -left!.x }).toEqual(right);
    expect(right).toMatchObject({ y: 0, aimX: 0, aimY: 0 });
  });

  test('a sheet that lets little straight through, and a panel that is flat', () => {
    expect(expected(modelOf('behind-sheet')).sheet!.forwardShare).toBeLessThan(0.05);
    expect(expected(modelOf('panel')).panel).toMatchObject({
      x: 0,
      y: 0,
      acrossEv: 0,
      downEv: 0,
      rightEv: 0,
      bottomEv: 0,
    });
  });

  test('stands where it was taped', () => {
    const entered = { frameWidthMm: 500, lampDistanceMm: [800], lampWidthMm: 200, cameraDistanceMm: 1500 };
    const { lights, cameraDistance } = expected(modelOf('bounced', {}, entered));
    expectWithin(lights[0]!.distance, 1.6, 1e-12);
    expect(lights[0]!.face).toEqual({ kind: 'disc', radius: expect.closeTo(0.2, 12) });
    expectWithin(cameraDistance, 3, 1e-12);
  });
});

describe('the parameters of a family', () => {
  test.each(ARRANGEMENTS)(
    'of %s have names of their own, the same whichever points were built',
    (arrangement) => {
      const model = modelOf(arrangement, { isTinted: true });
      const names = namesOf(model);
      expect(new Set(names).size).toBe(names.length);
      const random = seededRandom(1);
      for (let i = 0; i < 20; i++) model.setAt(Float64Array.from(names, () => 3 * random.normal()));
      expect(namesOf(model)).toEqual(names);
      expect(namesOf(modelOf(arrangement, { isTinted: true }))).toEqual(names);
    },
  );

  test.each(ARRANGEMENTS)('of %s each change the set, and by what it shows at any point', (arrangement) => {
    const model = modelOf(arrangement, { isTinted: true });
    const random = seededRandom(3);
    const point = Float64Array.from(model.parameters, () => 0.6 * random.normal());
    const set = JSON.stringify(model.setAt(point));
    model.parameters.forEach(({ name }, k) => {
      const moved = point.slice();
      moved[k]! += 0.3;
      expect(JSON.stringify(model.setAt(moved)), name).not.toBe(set);
    });
  });

  test('give light that is no less than nothing and finite, wherever expectations lead', () => {
    const random = seededRandom(13);
    for (const arrangement of ARRANGEMENTS) {
      const model = modelOf(arrangement, { isTinted: true });
      for (let i = 0; i < 100; i++) {
        const set = model.setAt(Float64Array.from(model.parameters, () => random.normal()));
        expect(set.lens!.squareEv).toBeGreaterThanOrEqual(0);
        expect(set.lens!.fourthEv).toBeGreaterThanOrEqual(0);
        for (const { distance, beamPower } of set.lights) {
          expect(distance).toBeGreaterThan(0);
          expect(beamPower).toBeGreaterThanOrEqual(0);
        }
        if (set.sheet) {
          expect(set.sheet.forwardShare).toBeGreaterThan(0);
          expect(set.sheet.forwardShare).toBeLessThan(1);
        }
        const light = setLight(set);
        for (const [x, y] of [
          [0, 0],
          [0.5, -1 / 3],
        ] as const)
          expect(light(x, y)[1] >= 0 && Number.isFinite(light(x, y)[1])).toBe(true);
      }
    }
  });

  test('slide two lights together with their middle, and leave their aims', () => {
    const model = modelOf('two-lamps');
    const point = Float64Array.from(namesOf(model), (name) => (name === 'middle right' ? 1.5 : 0));
    const [before, after] = [expected(model).lights, model.setAt(point).lights];
    expect(after[0]!.x - before[0]!.x).toBeGreaterThan(0.1);
    expectWithin(after[1]!.x - before[1]!.x, after[0]!.x - before[0]!.x, 1e-12);
    expect(after.map(({ aimX }) => aimX)).toEqual([0, 0]);
  });

  test('leave the level before a light alone where its distance changes', () => {
    const model = modelOf('bounced');
    const at = namesOf(model).indexOf('light 0 distance');
    const level = (off: number) => {
      const point = new Float64Array(model.parameters.length);
      point[at] = off;
      const { lights } = model.setAt(point);
      return lights[0]!.strengthEv - 2 * Math.log2(lights[0]!.distance);
    };
    expectWithin(level(2), level(-1), 1e-12);
  });
});

describe('traits of a family change what they say and nothing else', () => {
  const without = (set: LitSet, ...parts: readonly (keyof LitSet)[]) =>
    Object.fromEntries(Object.entries(set).filter(([part]) => !parts.includes(part as keyof LitSet)));

  test.each(ARRANGEMENTS)('%s with a tinted surface has a tint too, expected to be none', (arrangement) => {
    const [plain, tinted] = [modelOf(arrangement), modelOf(arrangement, { isTinted: true })];
    const more = namesOf(tinted).filter((name) => !namesOf(plain).includes(name));
    expect(more.every((name) => name.startsWith('tint '))).toBe(true);
    expect(namesOf(tinted).filter((name) => !more.includes(name))).toEqual(namesOf(plain));
    expect(without(expected(tinted), 'tint')).toEqual(without(expected(plain), 'tint'));
    const { tint, ...bare } = expected(tinted);
    expect(setLight({ tint, ...bare })(0.4, 0.2)).toEqual(setLight({ ...bare, tint: null })(0.4, 0.2));
  });

  test('a thin sheet lets much straight through, from a light that stands well back', () => {
    const [plain, thin] = [
      expected(modelOf('behind-sheet')),
      expected(modelOf('behind-sheet', { isThin: true })),
    ];
    expect(thin.sheet!.forwardShare).toBeGreaterThan(0.3);
    expect(thin.lights[0]!.distance).toBeGreaterThan(1.5 * plain.lights[0]!.distance);
    expect(thin.sheet!.lobeRad).toBe(plain.sheet!.lobeRad);
    expect(without(thin, 'sheet', 'lights', 'spill')).toEqual(without(plain, 'sheet', 'lights', 'spill'));
    const entered = { frameWidthMm: 500, lampDistanceMm: [600] };
    const taped = expected(modelOf('behind-sheet', { isThin: true }, entered));
    expectWithin(taped.lights[0]!.distance, 1.2, 1e-12);
  });

  test.each([
    ['an even panel', 'isEvenPanel', ['panel across', 'panel down']],
    ['a good lens', 'isGoodLens', ['lens square', 'lens fourth']],
  ] as const)('%s has none of those figures, wherever the point lies', (_, trait, gone) => {
    const [plain, bare] = [modelOf('panel'), modelOf('panel', { [trait]: true })];
    expect(namesOf(bare)).toEqual(
      namesOf(plain).filter((name) => !(gone as readonly string[]).includes(name)),
    );
    const random = seededRandom(4);
    const figures = new Map(namesOf(plain).map((name) => [name, random.normal()]));
    const at = (model: typeof plain) =>
      model.setAt(Float64Array.from(model.parameters, ({ name }) => figures.get(name)!));
    const [set, wanted] = [at(bare), at(plain)];
    if (trait === 'isEvenPanel')
      expect(set).toEqual({ ...wanted, panel: { ...wanted.panel, acrossEv: 0, downEv: 0 } });
    else expect(set).toEqual({ ...wanted, lens: { ...wanted.lens, squareEv: 0, fourthEv: 0 } });
  });
});
