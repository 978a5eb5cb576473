import { describe, expect, test } from 'vitest';
import { carriedStart, type FoundSet } from '../../../src/engine/lamps/carried-start.ts';
import {
  changedSet,
  NO_CHANGE,
  NOTHING_CHANGED,
  type SetChange,
} from '../../../src/engine/lamps/light-change.ts';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import { type SetModel, setModel } from '../../../src/engine/lamps/set-model.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { setupAfter } from '../../../src/takes/setup-after.ts';
import { expectWithin } from '../../expect-within.ts';
import { setBack } from '../moves/some-moves.ts';

const ASPECT = 2 / 3;
const COLOUR = { mired: 4, duv: 0.001 };
const modelOf = (setup: Setup, slips = 0) => setModel(setup, ASPECT, COLOUR, {}, slips);

/** A set of a family, about a standard deviation from what is expected in every figure, as a fit hands it on. */
function foundOf(model: SetModel, seed: number): FoundSet {
  const random = seededRandom(seed);
  const point = Float64Array.from(model.parameters, () => 0.7 * random.normal());
  return {
    set: model.setAt(point),
    figures: Object.fromEntries(model.parameters.map(({ name }, i) => [name, point[i]!])),
  };
}

/** Every number of a set, by where it stands in it. */
function figuresOf(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, each]) => figuresOf(each, `${path}/${key}`));
}

function expectSameSet(actual: LitSet, expected: LitSet, within: number): void {
  const found = new Map(figuresOf({ ...actual, slips: null }));
  for (const [path, figure] of figuresOf({ ...expected, slips: null })) {
    const own = found.get(path) ?? Number.NaN;
    expect(Math.abs(own - figure), `${path}: ${own} came of ${figure}`).toBeLessThan(within);
  }
}

const KNOWN: Setup = {
  ...UNKNOWN_SETUP,
  ...{ frameWidthMm: 600, lampDistanceMm: [700, 800], lampWidthMm: 180, cameraDistanceMm: 1500 },
};
const SETUPS: [string, Setup][] = (['behind-sheet', 'bounced', 'two-lamps', 'panel'] as const).flatMap(
  (arrangement): [string, Setup][] => [
    [`${arrangement}, all taped`, { ...KNOWN, arrangement }],
    [`${arrangement}, one distance taped`, { ...UNKNOWN_SETUP, arrangement, lampDistanceMm: [700] }],
    [`${arrangement}, nothing taped`, { ...UNKNOWN_SETUP, arrangement }],
  ],
);

describe('carriedStart(model, found, change)', () => {
  test.each(SETUPS)('begins at the set that was found where nothing was changed: %s', (_, setup) => {
    for (const seed of [1, 2, 3]) {
      const model = modelOf(setup);
      const found = foundOf(model, seed);
      expectSameSet(model.setAt(carriedStart(modelOf(setup), found, NOTHING_CHANGED)), found.set, 1e-6);
    }
  });

  const places = ({ lights }: LitSet) =>
    lights.map(({ x, y, distance, aimX, aimY }) => ({ x, y, distance, aimX, aimY }));

  test.each(SETUPS.filter(([, { arrangement }]) => arrangement !== 'panel'))(
    'puts the lights where the change has put them: %s',
    (_, setup) => {
      const change: SetChange = {
        ...NOTHING_CHANGED,
        lights: [
          { ...NO_CHANGE, right: 0.15, down: -0.1, aimRight: 0.05, aimDown: 0.1 },
          { ...NO_CHANGE, right: -0.2, down: 0.1, ratio: 1.3, aimRight: -0.1 },
        ],
      };
      for (const seed of [1, 2, 3]) {
        const found = foundOf(modelOf(setup), seed);
        const made = setBack(1, 1.3);
        // distances that were entered go along with the move
        const model = modelOf(setupAfter(setup, [made]), 9);
        const start = carriedStart(model, found, change);
        const is = places(model.setAt(start));
        places(changedSet(found.set, change)).forEach((wanted, lamp) => {
          for (const figure of ['x', 'y', 'distance', 'aimX', 'aimY'] as const)
            expectWithin(is[lamp]![figure], wanted[figure], 1e-6);
        });
      }
    },
  );

  test('a light that is set back stands back, entered or not', () => {
    const change: SetChange = { ...NOTHING_CHANGED, lights: [{ ...NO_CHANGE, ratio: 1.4 }] };
    for (const [name, setup] of SETUPS) {
      if (setup.arrangement === 'panel') continue;
      const found = foundOf(modelOf(setup), 5);
      const model = modelOf(setupAfter(setup, [setBack(0, 1.4)]), 1);
      const stands = model.setAt(carriedStart(model, found, change));
      const wanted = changedSet(found.set, change);
      stands.lights.forEach(({ distance }, lamp) => {
        expect(Math.abs(distance / wanted.lights[lamp]!.distance - 1), `${name}, light ${lamp}`).toBeLessThan(
          1e-6,
        );
      });
      expectWithin(stands.cameraDistance, wanted.cameraDistance, 1e-6);
    }
  });

  test('knows of no slip, and of figures that the earlier family had not as they are expected', () => {
    const setup = { ...KNOWN, arrangement: 'bounced' as const };
    const found = foundOf(modelOf(setup), 4);
    const model = setModel(setup, ASPECT, COLOUR, { isTinted: true }, 5);
    const start = carriedStart(model, found, NOTHING_CHANGED);
    model.parameters.forEach(({ name }, i) => {
      if (name.startsWith('slip ') || name.startsWith('tint ')) expect(start[i], name).toBe(0);
      else expect(start[i], name).not.toBe(0);
    });
    expect(model.parameters.filter(({ name }) => name.startsWith('slip '))).toHaveLength(5);
  });

  test('begins nowhere that is unheard of, however far a light was sent', () => {
    const setup = { ...KNOWN, arrangement: 'bounced' as const };
    const model = modelOf(setup);
    const change = { ...NOTHING_CHANGED, lights: [{ ...NO_CHANGE, right: 9, down: -9, ratio: 40 }] };
    for (const value of carriedStart(model, foundOf(model, 6), change)) {
      expect(Number.isFinite(value)).toBe(true);
      expect(Math.abs(value)).toBeLessThanOrEqual(4);
    }
  });
});
