import { describe, expect, test } from 'vitest';
import type { FoundLight, SetReading } from '../../src/engine/lamps/set-reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { believedSet, type PlanInput, planInput } from '../../src/plots/plan-input.ts';
import { wrapWords } from '../../src/plots/plan-notes.ts';
import type { PlanSide } from '../../src/plots/plan-projection.ts';
import type { PlanSpread } from '../../src/plots/plan-spread.ts';
import { hasHeights, type PlanView, planView } from '../../src/plots/plan-view.ts';
import type { PlotPoint } from '../../src/plots/plot-line.ts';
import { expectWithin } from '../expect-within.ts';
import { foundLight, randomPlanInput } from './found-sets.ts';
import { boxOf, overlap, pageOf, picture, points, runsThrough } from './plan-drawing.ts';
import { FRONT, KNOWN, ROOM } from './plan-set-ups.ts';
import { readingFixture } from './reading-fixture.ts';
import { expectStoredPicture } from './stored-picture.ts';

/** Paths are written to a tenth of a drawing unit. */
const ROUNDING = 0.12;
const SPILL: NonNullable<PlanInput['spill']> = {
  share: { value: 0.14, plusMinus: 0.03 },
  mired: { value: 60, plusMinus: 10 },
  fromDeg: 180,
};

function input(lights: readonly FoundLight[], change: Partial<PlanInput> = {}): PlanInput {
  return {
    setup: KNOWN,
    aspect: 2 / 3,
    brighterDeg: 180,
    hottestAt: { x: 0.25, y: 0.5 },
    isHottestClipped: false,
    moves: [],
    foundLights: lights,
    spill: null,
    ...change,
  };
}

/** Drawing units per frame width, and the middle of the frame, as drawn. */
function frameOf(view: PlanView, aspect: number) {
  const [from, to] = points(view.frame.path);
  const long = Math.hypot(to![0] - from![0], to![1] - from![1]);
  return {
    unit: view.seenFrom === 'above' ? long : long / aspect,
    middle: [(from![0] + to![0]) / 2, (from![1] + to![1]) / 2] as const,
  };
}

/** Half of the ellipse's extent to the right and down. */
function extent({ radius: [a, b], turnDeg }: PlanSpread): [number, number] {
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  return [Math.hypot(a * cos, b * sin), Math.hypot(a * sin, b * cos)];
}

describe('a light that was found', () => {
  test('stands where the frame has it, to scale, seen from above and from the side', () => {
    for (const [setup, side] of [
      [KNOWN, 1],
      [{ ...KNOWN, arrangement: 'bounced' } as const, -1],
    ] as const)
      for (const seenFrom of ['above', 'side'] as const) {
        const view = planView(input([foundLight()], { setup }), seenFrom, ROOM);
        const { unit, middle } = frameOf(view, 2 / 3);
        const { spread, isFound } = view.lights[0]!;
        const [along, away] =
          seenFrom === 'above'
            ? [spread!.centre[0] - middle[0], middle[1] - spread!.centre[1]]
            : [spread!.centre[1] - middle[1], spread!.centre[0] - middle[0]];
        expect(isFound).toBe(true);
        expectWithin(along / unit, seenFrom === 'above' ? -0.25 : 0.06, ROUNDING / unit);
        expectWithin(away / unit, side * 1.5, (2.5 * ROUNDING) / unit);
      }
  });

  test('is as wide as entered, and points along its axis at the spot it aims at', () => {
    const view = planView(input([foundLight({ aimRight: 0.5 })]), 'above', ROOM);
    const { unit, middle } = frameOf(view, 2 / 3);
    const [one, other, , last] = points(view.lights[0]!.path);
    expectWithin(Math.hypot(other![0] - one![0], other![1] - one![1]), unit / 2, 2 * ROUNDING);
    const [spot, light] = points(view.lights[0]!.axisPath);
    expectWithin(spot![0] - middle[0], 0.5 * unit, ROUNDING);
    expectWithin(spot![1], middle[1], ROUNDING);
    // the face lies across the axis, and its depth along it
    const across =
      (other![0] - one![0]) * (light![0] - spot![0]) + (other![1] - one![1]) * (light![1] - spot![1]);
    const size = (unit / 2) * Math.hypot(light![0] - spot![0], light![1] - spot![1]);
    expect(Math.abs(across / size)).toBeLessThan(0.005);
    expectWithin(Math.hypot(last![0] - one![0], last![1] - one![1]), 8, 2 * ROUNDING);
  });

  test('has an ellipse that reaches as far as its ±, and is turned by how the errors go together', () => {
    for (const correlation of [-0.95, -0.4, 0, 0.4, 0.95]) {
      const light = foundLight({ rightWithDistance: correlation, right: { value: 0.1, plusMinus: 0.2 } });
      for (const seenFrom of ['above', 'side'] as const) {
        const view = planView(input([light]), seenFrom, ROOM);
        const { unit } = frameOf(view, 2 / 3);
        const { spread } = view.lights[0]!;
        const [x, y] = extent(spread!);
        const [along, away] = seenFrom === 'above' ? [x, y] : [y, x];
        expectWithin(along / unit, seenFrom === 'above' ? 0.2 : Math.max(0.02, 3 / unit), 0.1 / unit);
        expectWithin(away / unit, 0.3, 0.1 / unit);
      }
    }
    const tilt = (setup: Setup) => {
      const light = foundLight({ rightWithDistance: 0.9, right: { value: 0, plusMinus: 0.3 } });
      const { turnDeg } = planView(input([light], { setup }), 'above', ROOM).lights[0]!.spread!;
      return Math.sin((2 * turnDeg * Math.PI) / 180);
    };
    // farther right and farther away: up on the paper behind the sheet, down in front of a wall
    expect(tilt(KNOWN)).toBeLessThan(-0.5);
    expect(tilt({ ...KNOWN, arrangement: 'bounced' })).toBeGreaterThan(0.5);
  });

  test('keeps the scale of its set however large its ±', () => {
    const wide = foundLight({
      right: { value: -0.25, plusMinus: 20 },
      down: { value: 0.06, plusMinus: 20 },
    });
    for (const seenFrom of ['above', 'side'] as const)
      expect(planView(input([wide]), seenFrom, ROOM).width).toBe(
        planView(input([foundLight()]), seenFrom, ROOM).width,
      );
  });

  test('stands somewhere on a line away from the surface where its distance is not told', () => {
    const light = foundLight({ distance: { value: 1.5, plusMinus: 0.46 }, rightWithDistance: 0.8 });
    for (const seenFrom of ['above', 'side'] as const) {
      const { spread, isFound, somewherePath } = planView(input([light]), seenFrom, ROOM).lights[0]!;
      expect([spread, isFound]).toEqual([null, false]);
      const [near, far] = points(somewherePath);
      const [along, away] = seenFrom === 'above' ? [0, 1] : [1, 0];
      expect(Math.abs(far![away] - near![away])).toBeGreaterThan(Math.abs(far![along] - near![along]));
    }
    expect(
      planView(input([foundLight({ distance: { value: 1.5, plusMinus: 0.44 } })]), 'above', ROOM).lights[0]!
        .isFound,
    ).toBe(true);
  });

  test('is drawn nearer, with a break, where it is very far', () => {
    const far = foundLight({ distance: { value: 9, plusMinus: 1 } });
    const view = planView(input([far]), 'above', ROOM);
    expect(view.breaksPath).not.toBe('');
    expect(view.lengths.lampDistances[0]).toMatchObject({ mm: 2000, isKnown: true, isShortened: true });
  });

  test('asks for the side view where it stands above or below the middle by more than its ±', () => {
    const has = (value: number, plusMinus: number) =>
      hasHeights(input([foundLight({ down: { value, plusMinus } })]));
    expect([has(0.06, 0.02), has(-0.3, 0.02), has(0.3, 0.4), has(0.04, 0.02)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
});

describe('spill', () => {
  const strokes = (fromDeg: number | null, seenFrom: PlanSide) => {
    const view = planView(input([], { spill: { ...SPILL, fromDeg } }), seenFrom, ROOM);
    const { middle } = frameOf(view, 2 / 3);
    const way = seenFrom === 'above' ? 0 : 1;
    const ends = view.spill === null ? [] : points(view.spill.path);
    return { ends: ends.map((end) => end[way] - middle[way]), count: ends.length / 2 };
  };

  test('falls in from its side, in the view that shows it', () => {
    const left = strokes(180, 'above');
    expect(left.count).toBe(3);
    expect(Math.max(...left.ends)).toBeLessThan(0);
    expect(Math.min(...strokes(20, 'above').ends)).toBeGreaterThan(0);
    expect(strokes(180, 'side').count).toBe(0);
    expect(strokes(-90, 'above').count).toBe(0);
    expect(Math.max(...strokes(-110, 'side').ends)).toBeLessThan(0);
    expect(Math.min(...strokes(90, 'side').ends)).toBeGreaterThan(0);
  });

  test('from no one side falls in from both, in either view', () => {
    for (const seenFrom of ['above', 'side'] as const) {
      const { ends, count } = strokes(null, seenFrom);
      expect(count).toBe(6);
      expect([ends.filter((end) => end < 0).length, ends.filter((end) => end > 0).length]).toEqual([6, 6]);
    }
  });

  test('its strokes are parallel and run towards the frame', () => {
    const { path } = planView(input([], { spill: SPILL }), 'above', ROOM).spill!;
    const all = points(path);
    for (let i = 0; i < all.length; i += 2) {
      expectWithin(all[i + 1]![0] - all[i]![0], all[1]![0] - all[0]![0], 2 * ROUNDING);
      expectWithin(all[i + 1]![1] - all[i]![1], all[1]![1] - all[0]![1], 2 * ROUNDING);
      expect(all[i + 1]![0]).toBeGreaterThan(all[i]![0]);
      expect(all[i + 1]![1]).toBeLessThan(all[i]![1]);
    }
  });
});

describe('what the plan takes from a report', () => {
  const set = { lights: [foundLight()], spill: { ...SPILL, fromDeg: 180 } } as unknown as SetReading;
  const stray = {
    ...({ kind: 'stray-light', confidence: 1, ev: 0.1, mired: 60 } as const),
    ...{ at: null, says: '', lengthsMm: null },
  };

  test('lights of the set, and spill where a finding tells of it', () => {
    const of = (...change: Parameters<typeof readingFixture>) =>
      planInput(readingFixture(...change), KNOWN, set);
    expect(of().foundLights).toEqual(set.lights);
    expect(of().spill).toBeNull();
    expect(of({}, { findings: [stray] }).spill).toEqual(set.spill);
    const none = planInput(readingFixture({}, { findings: [stray] }), KNOWN, null);
    expect([none.foundLights, none.spill]).toEqual([[], null]);
  });

  test('no set that does not explain the frame, or was fitted to another set-up than stands', () => {
    const fittedWith = { setup: KNOWN, secondFrames: [], earlierTakes: [] };
    const of = (isSetTrusted: boolean, stands: Setup) =>
      believedSet({ set, isSetTrusted, fittedWith }, stands);
    expect(of(true, KNOWN)).toBe(set);
    expect(of(true, { ...KNOWN, light: 'flash' })).toBe(set);
    expect(of(false, KNOWN)).toBeNull();
    expect(of(true, { ...KNOWN, lampDistanceMm: [1200] })).toBeNull();
    expect(of(true, { ...KNOWN, frameWidthMm: null })).toBeNull();
    expect(of(true, { ...KNOWN, arrangement: 'bounced' })).toBeNull();
  });
});

const SETS = 300;
test(`on the plans of ${SETS} sets all is inside the page, and no note lies on another, on the drawing or under a line`, () => {
  let [notes, ovals, cut] = [0, 0, 0];
  for (let seed = 1; seed <= SETS; seed++)
    for (const side of ['above', 'side'] as const) {
      const page = pageOf(randomPlanInput(seed), side);
      const { view, drawnAt } = page;
      const drawing = {
        left: drawnAt[0],
        right: drawnAt[0] + view.width,
        top: drawnAt[1],
        bottom: drawnAt[1] + view.height,
      };
      expect(drawing.left).toBeGreaterThanOrEqual(-0.01);
      expect(drawing.right).toBeLessThanOrEqual(page.width + 0.01);
      expect(drawing.top).toBeGreaterThanOrEqual(-0.01);
      expect(drawing.bottom).toBeLessThanOrEqual(page.height + 0.01);
      const paths = view.lights.flatMap(({ path, axisPath, somewherePath }) => [
        path,
        axisPath,
        somewherePath,
      ]);
      for (const [x, y] of [...paths, view.spill?.path ?? '', ...view.moves.map(({ path }) => path)].flatMap(
        points,
      )) {
        expect(Math.min(x, view.width - x)).toBeGreaterThanOrEqual(-0.06);
        expect(Math.min(y, view.height - y)).toBeGreaterThanOrEqual(-0.06);
      }
      for (const { spread } of view.lights) {
        if (spread === null) continue;
        ovals++;
        const [[x, y], [atX, atY]] = [extent(spread), spread.centre];
        const isOutside = atX - x < 0 || atX + x > view.width || atY - y < 0 || atY + y > view.height;
        // the least size of an ellipse is what is drawn, and no more than a touch beyond its ±
        if (Math.min(...spread.radius) > 3) expect(spread.isCut).toBe(isOutside);
        if (spread.isCut) cut++;
      }
      const boxes = page.notes.map(boxOf);
      for (const [i, box] of boxes.entries()) {
        notes++;
        expect(box.left).toBeGreaterThanOrEqual(-0.01);
        expect(box.right).toBeLessThanOrEqual(page.width + 0.01);
        expect(box.top).toBeGreaterThanOrEqual(-0.01);
        expect(box.bottom).toBeLessThanOrEqual(page.height + 6);
        expect(overlap(box, drawing)).toBe(false);
        for (const other of boxes.slice(i + 1)) expect(overlap(box, other)).toBe(false);
        for (const { leaderPath } of page.notes) expect(runsThrough(leaderPath, box)).toBe(false);
      }
    }
  console.log(
    `measured: ${notes} notes on ${2 * SETS} plans, none on another, on the drawing or cut off; ${ovals} ovals, ${cut} of them reach beyond what is drawn`,
  );
  expect(notes).toBeGreaterThan(6 * SETS);
  expect(cut).toBeGreaterThan(5);
});

test('wrapWords(text) keeps a figure and its ± on one line where one line holds them, and parts them where not', () => {
  expect(wrapWords('the light, 11\u00a0±\u00a02\u00a0cm left', 110)).toEqual([
    'the light,',
    '11\u00a0±\u00a02\u00a0cm left',
  ]);
  expect(wrapWords('31683126331\u00a0±\u00a07171881900\u00a0cm left', 140)).toEqual([
    '31683126331 ±',
    '7171881900 cm',
    'left',
  ]);
});

const TWO = [
  foundLight({ right: { value: -0.77, plusMinus: 0.14 }, aimRight: -0.1, rightWithDistance: -0.5 }),
  foundLight({ right: { value: 0.79, plusMinus: 0.7 }, aimRight: 0.06, rightWithDistance: 0.75 }),
];
const PICTURES: readonly [string, PlanInput, PlanSide][] = [
  ['plan-found-above', input([foundLight()], { spill: SPILL }), 'above'],
  ['plan-found-side', input([foundLight()], { spill: { ...SPILL, fromDeg: null } }), 'side'],
  ['plan-found-two-lights', input(TWO, { setup: FRONT }), 'above'],
  [
    'plan-found-line',
    input([foundLight({ distance: { value: 1.3, plusMinus: 1 } })], { setup: UNKNOWN_SETUP }),
    'above',
  ],
];
for (const [name, given, side] of PICTURES)
  test(`planPage(input) draws the stored picture ${name}`, () => {
    expectStoredPicture(name, picture(pageOf(given, side)));
  });

test(`no two lines to notes cross on the plans of ${SETS} sets seen from above`, () => {
  let [lines, crossing] = [0, 0];
  for (let seed = 1; seed <= SETS; seed++) {
    const leaders = pageOf(randomPlanInput(seed), 'above').notes.map(({ leaderPath }) => points(leaderPath));
    lines += leaders.length;
    leaders.forEach(([from, to], i) => {
      for (const [otherFrom, otherTo] of leaders.slice(i + 1))
        if (doCross(from!, to!, otherFrom!, otherTo!)) crossing++;
    });
  }
  console.log(`measured: ${lines} lines to notes on ${SETS} plans, ${crossing} pairs of them cross`);
  expect(crossing).toBe(0);
});

/** Whether the line from a to b crosses that from c to d between their ends. */
function doCross(a: PlotPoint, b: PlotPoint, c: PlotPoint, d: PlotPoint): boolean {
  const side = (from: PlotPoint, to: PlotPoint, point: PlotPoint) =>
    (to[0] - from[0]) * (point[1] - from[1]) - (to[1] - from[1]) * (point[0] - from[0]);
  const between = (one: number, other: number) => Math.min(one, other) < -1 && Math.max(one, other) > 1;
  return between(side(a, b, c), side(a, b, d)) && between(side(c, d, a), side(c, d, b));
}
