import { expect, test } from 'vitest';
import { xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import type { LitSet, PanelProfile, SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { emptySampleLight, type SampleLight, sampleLighter } from '../../../src/engine/lamps/sample-light.ts';
import { setLight } from '../../../src/engine/lamps/set-light.ts';
import { setModel } from '../../../src/engine/lamps/set-model.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf } from './set-of.ts';

const SPOTS = {
  x: Float64Array.of(-0.5, -0.2, 0, 0.1, 0.37, 0.5),
  y: Float64Array.of(-1 / 3, 0.3, 0, -0.1, 0.22, 1 / 3),
};
const COUNT = SPOTS.x.length;

function lit(lighter: (set: LitSet, into: SampleLight) => void, set: LitSet) {
  const light = emptySampleLight(COUNT);
  lighter(set, light);
  return light;
}

/** What one lighter says after all that it was asked before is what a fresh one says. */
function expectNothingStale(lighter: ReturnType<typeof sampleLighter>, set: LitSet, what: string): void {
  const [held, fresh] = [lit(lighter, set), lit(sampleLighter(SPOTS), set)];
  for (const figure of ['ev', 'uPrime', 'vPrime'] as const)
    for (let i = 0; i < COUNT; i++) {
      const off = Math.abs(held[figure][i]! - fresh[figure][i]!);
      expect(off <= 1e-12, `${what}: ${figure} of spot ${i} is off by ${off}`).toBe(true);
    }
}

const PANEL: PanelProfile = {
  x: 0.02,
  y: -0.01,
  levelEv: 0.5,
  acrossEv: -0.3,
  downEv: 0.2,
  rightEv: 0.1,
  bottomEv: -0.05,
  halfWidth: 0.8,
  halfHeight: 0.6,
  colour: { mired: 5, duv: 0.001 },
};
const SET: LitSet = setOf(
  [
    lightOf({
      x: -0.4,
      y: 0.1,
      face: { kind: 'disc', radius: 0.1 },
      beamEdge: { angleRad: 0.6, steepness: 6 },
    }),
    lightOf({ x: 0.5, face: { kind: 'rectangle', width: 0.2, height: 0.3 }, colour: { mired: 20, duv: 0 } }),
  ],
  {
    panel: PANEL,
    sheet: { forwardShare: 0.3, lobeRad: 0.4 },
    spill: { levelEv: -3, rightEv: 0.4, downEv: -0.3, colour: { mired: 90, duv: 0.002 } },
    tint: { x: 0, y: 0, rightMired: 12, downMired: -6, duvPerMired: 1e-4, lossEvPerMired: 0.003, soft: 0.4 },
    rim: { left: 0.05, right: -0.2, top: -0.1, bottom: -0.3, lossEv: 2, soft: 0.1 },
    lens: { squareEv: 0.2, fourthEv: 0.1, corner: { mired: 4, duv: 0.0002 } },
  },
);

test('a lighter says what the set’s light is at each spot', () => {
  const light = setLight(SET);
  const found = lit(sampleLighter(SPOTS), SET);
  for (let i = 0; i < COUNT; i++) {
    const xyz = light(SPOTS.x[i]!, SPOTS.y[i]!);
    const { uPrime, vPrime } = xyzToUvPrime(...xyz);
    expectWithin(found.ev[i]!, Math.log2(xyz[1]), 1e-12);
    expectWithin(found.uPrime[i]!, uPrime, 1e-12);
    expectWithin(found.vPrime[i]!, vPrime, 1e-12);
  }
});

test.each(['behind-sheet', 'bounced', 'two-lamps', 'panel'] as const)(
  'near a set of the arrangement %s the light changes with every figure as central differences say',
  (arrangement) => {
    const model = setModel(
      { ...UNKNOWN_SETUP, arrangement },
      2 / 3,
      { mired: 3, duv: 0 },
      { isTinted: true },
    );
    const random = seededRandom(8);
    const STEP = 1e-5;
    let worst = 0;
    for (let round = 0; round < 12; round++) {
      const point = Float64Array.from(model.parameters, () => 0.8 * random.normal());
      const lighter = sampleLighter(SPOTS);
      const near = lighter.near(model.setAt(point));
      const here = lit(near, model.setAt(point));
      model.parameters.forEach(({ name }, k) => {
        const moved = (by: number) => model.setAt(point.map((value, i) => (i === k ? value + by : value)));
        const next = lit(near, moved(STEP));
        const [before, after] = [
          lit(sampleLighter(SPOTS), moved(-STEP)),
          lit(sampleLighter(SPOTS), moved(STEP)),
        ];
        for (const figure of ['ev', 'uPrime', 'vPrime'] as const)
          for (let i = 0; i < COUNT; i++) {
            const slope = (next[figure][i]! - here[figure][i]!) / STEP;
            const wanted = (after[figure][i]! - before[figure][i]!) / (2 * STEP);
            const off = Math.abs(slope - wanted) / (figure === 'ev' ? 1 : 0.02);
            worst = Math.max(worst, off);
            expect(off < 2e-4 * (1 + Math.abs(wanted)), `${name}: ${figure} ${slope}, ${wanted}`).toBe(true);
          }
      });
    }
    console.log(
      `measured: light next to a set (${arrangement}) is within ${worst.toExponential(1)} stops per deviation, and 0.02 of it in u′v′, of central differences`,
    );
  },
);

test('steps to the side leave nothing behind', () => {
  const lighter = sampleLighter(SPOTS);
  for (const [name, set] of changedInOne(SET, (changed) => changed as LitSet, 'set')) {
    const near = lighter.near(SET);
    const before = lit(near, SET);
    lit(near, set);
    expect(lit(near, SET), name).toEqual(before);
    expectNothingStale(lighter, SET, name);
  }
});

/** Every set that differs from a whole in one figure, wherever in it that stands; names beside. */
function* changedInOne(
  part: unknown,
  put: (changed: unknown) => LitSet,
  name: string,
): Generator<[string, LitSet]> {
  if (typeof part === 'number') yield [name, put(part === 0 ? 0.013 : 1.07 * part)];
  if (typeof part !== 'object' || part === null) return;
  const copy = (key: string, value: unknown) =>
    Array.isArray(part)
      ? part.map((each, i) => (String(i) === key ? value : each))
      : { ...part, [key]: value };
  for (const [key, value] of Object.entries(part))
    if (key !== 'aspect') yield* changedInOne(value, (inner) => put(copy(key, inner)), `${name} ${key}`); // samples are of one frame
}

test('nothing stays of the set before: each figure changed in turn, there and back', () => {
  const changed = [...changedInOne(SET, (set) => set as LitSet, 'set')];
  expect(changed.length).toBeGreaterThan(55);
  const lighter = sampleLighter(SPOTS);
  for (const [name, set] of changed) {
    const [before, after] = [lit(lighter, SET), lit(lighter, set)];
    // were a figure without effect, what is kept could not be told from what is not
    const differs =
      after.ev.some((ev, i) => ev !== before.ev[i]) || after.uPrime.some((u, i) => u !== before.uPrime[i]);
    expect(differs, `${name} changes the light`).toBe(true);
    expectNothingStale(lighter, set, name);
    expectNothingStale(lighter, SET, `back from ${name}`);
  }
});

test('nor of parts that a set has and the next one has not, in any order', () => {
  const random = seededRandom(21);
  const maybe = <T>(thing: T): T | null => (random.uniform() < 0.5 ? thing : null);
  const off = () => 0.1 * random.normal();
  const light = (): SetLight =>
    lightOf({
      x: off(),
      distance: 1 + random.uniform(),
      aimX: off(),
      face: maybe({ kind: 'disc', radius: 0.1 } as const) ?? { kind: 'rectangle', width: 0.1, height: 0.1 },
      beamEdge: maybe({ angleRad: 0.7, steepness: 5 }),
      strengthEv: off(),
    });
  const lighter = sampleLighter(SPOTS);
  for (let i = 0; i < 400; i++) {
    const lights = Array.from({ length: Math.floor(3 * random.uniform()) }, light);
    const set: LitSet = {
      ...SET,
      lights,
      panel: maybe({ ...PANEL, acrossEv: off() }),
      sheet: maybe(SET.sheet),
      spill: { ...SET.spill!, levelEv: -3 + off() },
      tint: maybe(SET.tint),
      rim: maybe(SET.rim),
      lens: maybe(SET.lens),
      cameraDistance: 3 + off(),
    };
    expectNothingStale(lighter, set, `set ${i}`);
  }
});

test.each(['behind-sheet', 'bounced', 'two-lamps', 'panel'] as const)(
  'nor along the steps of a fit of the arrangement %s: one figure moved at a time, now and then all of them',
  (arrangement) => {
    const model = setModel(
      { ...UNKNOWN_SETUP, arrangement },
      2 / 3,
      { mired: 3, duv: 0 },
      { isTinted: true },
    );
    const random = seededRandom(5);
    const lighter = sampleLighter(SPOTS);
    let point = new Float64Array(model.parameters.length);
    for (let round = 0; round < 6; round++) {
      point = point.map(() => 0.7 * random.normal());
      expectNothingStale(lighter, model.setAt(point), 'a new point');
      model.parameters.forEach(({ name }, k) => {
        const moved = point.slice();
        moved[k]! += round % 2 ? 1e-4 : 0.5;
        expectNothingStale(lighter, model.setAt(moved), name);
      });
    }
  },
);
