import { describe, expect, test } from 'vitest';
import {
  changedSet,
  type LightChange,
  NO_CHANGE,
  NOTHING_CHANGED,
} from '../../../src/engine/lamps/light-change.ts';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import { spreadTaker } from '../../../src/engine/lamps/set-spread.ts';
import { spreadSpots } from '../../../src/engine/lamps/spread-spots.ts';
import { evenestChange } from '../../../src/engine/moves/evenest-change.ts';
import type { StepOfLight } from '../../../src/engine/moves/light-steps.ts';
import { outOfShot } from '../../../src/engine/moves/out-of-shot.ts';
import { roomBounds } from '../../../src/engine/moves/room-bounds.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { numberIn, readTable } from '../../published/read-table.ts';
import { drawsFrom } from '../../synthetic/random/draws.ts';
import { measurementOf } from '../diagnosis/measurement-of.ts';
import { lightOf, setOf } from '../lamps/set-of.ts';
import { SPOTS } from './spread-spots-of.ts';

const SLIDES: readonly StepOfLight[] = [0, 1].map((lamp) => ({ lamp, step: 'slide' }));

/** Spots along the middle of the frame, side to side. */
const LINE = {
  x: Float64Array.from({ length: 41 }, (_, i) => i / 40 - 0.5),
  y: new Float64Array(41),
};

/** Two equal small lights either side, after their evenest slide along the line; and the range that it leaves there. */
function slidPair(distance: number, aside: number, beamPower: number) {
  const set = setOf(
    [-aside, aside].map((x) => lightOf({ x, distance, beamPower, aimX: x })),
    { cameraDistance: 2 * distance },
  );
  const search = { sets: [set], spots: LINE, bounds: roomBounds(set, UNKNOWN_SETUP) };
  const lights = evenestChange(search, SLIDES, [NO_CHANGE, NO_CHANGE]);
  const slid = changedSet(set, { ...NOTHING_CHANGED, lights });
  return { asides: slid.lights.map(({ x }) => Math.abs(x)), range: spreadTaker(LINE)(slid).ev };
}

/** The least range that any two such lights leave, and where, straight from the law: cos³, or cos⁴ for faces. */
function flattest(distance: number, power: number) {
  let best = { aside: Number.NaN, range: Number.POSITIVE_INFINITY };
  for (let aside = 0.3 * distance; aside < 0.8 * distance; aside += 0.001) {
    const light = (x: number) =>
      [x - aside, x + aside].reduce((sum, off) => sum + Math.hypot(off, distance) ** -power, 0);
    const levels = Array.from(LINE.x, (x) => Math.log2(light(x)));
    const range = Math.max(...levels) - Math.min(...levels);
    if (range < best.range) best = { aside, range };
  }
  return best;
}

describe('two equal lights slid along the middle', () => {
  // tests/published/two-lights.csv: derived and recomputed for this project, no published source
  const published = readTable('two-lights').filter(({ figure }) => figure === 'range');

  test.each([
    [1, 0.3],
    [1, 0.8],
    [1.5, 0.4],
    [1.5, 1.1],
  ])('%d frame widths off, from %d either side, end where they are flattest', (distance, from) => {
    for (const [beamPower, power] of [
      [0, 3],
      [1, 4],
    ] as const) {
      const { asides, range } = slidPair(distance, from, beamPower);
      const best = flattest(distance, power);
      console.log(
        `measured: two lights ${distance} off, cos^${power}: ${asides.map((s) => (s / distance).toFixed(3)).join(' and ')} of it aside (flattest ${(best.aside / distance).toFixed(3)}), ${range.toFixed(4)} EV (${best.range.toFixed(4)})`,
      );
      for (const aside of asides) expectWithin(aside / distance, best.aside / distance, 0.03);
      expectWithin(range, best.range, 0.01);
    }
    // at half their distance aside a small light's range is the table's: the best is no worse, and no other place
    const row = published.find((each) => numberIn(each, 'distance_widths') === distance)!;
    expectWithin(numberIn(row, 'aside_widths') / distance, 0.5, 1e-12);
    const { range, asides } = slidPair(distance, from, 0);
    expect(range).toBeLessThan(numberIn(row, 'EV') + 0.0005);
    for (const aside of asides) expectWithin(aside / distance, 0.5, 0.1);
  });
});

describe('evenestChange(search, steps, start)', () => {
  const ALL: readonly StepOfLight[] = [0, 1].flatMap((lamp) =>
    (['slide', 'distance', 'turn'] as const).map((step) => ({ lamp, step })),
  );

  test('changes nothing but by the steps it is given', () => {
    const set = setOf([lightOf({ x: -0.3 }), lightOf({ x: 0.9, strengthEv: 1 })]);
    const search = { sets: [set], spots: SPOTS, bounds: roomBounds(set, UNKNOWN_SETUP) };
    const [first, second] = evenestChange(search, [{ lamp: 1, step: 'power' }], [NO_CHANGE, NO_CHANGE]);
    expect(first).toEqual(NO_CHANGE);
    expect(second!.stops).toBeLessThan(-0.2);
    expect({ ...second, stops: 0 }).toEqual(NO_CHANGE);
  });

  test('goes by all likely sets together, not by the first alone', () => {
    const [left, right] = [-0.3, 0.3].map((x) =>
      setOf([lightOf({ x })], { sheet: { forwardShare: 0, lobeRad: 0.4 } }),
    );
    const steps: readonly StepOfLight[] = [{ lamp: 0, step: 'slide' }];
    const slideOf = (sets: LitSet[]) =>
      evenestChange({ sets, spots: SPOTS, bounds: roomBounds(sets[0]!, UNKNOWN_SETUP) }, steps, [
        NO_CHANGE,
      ])[0]!.right;
    expectWithin(slideOf([left!]), 0.3, 0.02);
    expectWithin(slideOf([left!, right!]), 0, 0.02);
  });

  test('leaves the light as it began where it finds nothing more even', () => {
    // between few spots the hottest place of one light can hide from those that are weighed
    const few = spreadSpots(measurementOf({ ev: () => 0 }), 7);
    const set = setOf([lightOf({ x: 0.35 })], { sheet: { forwardShare: 0, lobeRad: 0.4 } });
    const bounds = roomBounds(set, UNKNOWN_SETUP);
    const best = { ...NO_CHANGE, right: -0.35, ratio: bounds[0]!.farthest };
    const steps = ALL.filter(({ lamp }) => lamp === 0);
    for (const some of [steps, steps.slice(0, 2)]) {
      const [change] = evenestChange({ sets: [set], spots: few, bounds }, some, [best]);
      const spread = (light: LightChange) =>
        spreadTaker(few)(changedSet(set, { ...NOTHING_CHANGED, lights: [light] })).ev;
      expect(spread(change!)).toBeLessThan(spread(best) + 1e-9);
    }
  });

  test('sends no light beyond its bounds nor into the picture, and leaves the light no worse', () => {
    const { between, chance } = drawsFrom(seededRandom(12));
    const worst = { beyond: 0, inPicture: 0, spread: Number.NEGATIVE_INFINITY };
    for (let i = 0; i < 25; i++) {
      const side = (sign: number) =>
        lightOf({
          ...{ x: sign * between(0.75, 1.3), y: between(-0.3, 0.3), distance: between(0.5, 1.6) },
          ...{ aimX: between(-0.4, 0.4), aimY: between(-0.2, 0.2), beamPower: between(0.5, 4) },
          face: { kind: 'disc', radius: between(0.02, 0.2) },
          strengthEv: between(-0.5, 0.5),
        });
      const lights = chance(0.4) ? [side(1)] : [side(-1), side(1)];
      const set = setOf(lights, { cameraDistance: between(1.5, 3) });
      const mm = (least: number) => (chance(0.3) ? null : between(least, 1500));
      const room = { leftMm: mm(300), rightMm: mm(300), upMm: mm(100), downMm: mm(100), reachMm: mm(600) };
      const bounds = roomBounds(set, { ...UNKNOWN_SETUP, frameWidthMm: 600, room });
      const steps = ALL.filter(({ lamp }) => lamp < lights.length);
      const start = lights.map(() => NO_CHANGE);
      const change = evenestChange({ sets: [set], spots: SPOTS, bounds }, steps, start);
      const after = changedSet(set, { ...NOTHING_CHANGED, lights: change });
      after.lights.forEach((light, lamp) => {
        const { left, right, up, down, nearest, farthest } = bounds[lamp]!;
        const { x, y, distance } = light;
        const beyond = Math.max(
          left - x,
          x - right,
          up - y,
          y - down,
          nearest - distance,
          distance - farthest,
        );
        worst.beyond = Math.max(worst.beyond, beyond);
        // one that is in the picture already comes no farther into it
        const stood = Math.min(0, outOfShot(set, lights[lamp]!));
        worst.inPicture = Math.max(worst.inPicture, stood - outOfShot(after, light));
      });
      const taken = spreadTaker(SPOTS);
      worst.spread = Math.max(worst.spread, taken(after).ev - taken(set).ev);
    }
    console.log(
      `measured: ${worst.beyond.toFixed(6)} widths beyond the room, ${worst.inPicture.toFixed(4)} into the picture's clearance, spread by ${worst.spread.toFixed(3)} EV at most`,
    );
    expect(worst.beyond).toBeLessThan(1e-9);
    expect(worst.inPicture).toBeLessThan(0.025); // of a clearance of 0.05
    expect(worst.spread).toBeLessThan(0);
  });
});
