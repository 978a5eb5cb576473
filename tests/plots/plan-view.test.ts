import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { type PlanInput, planInput } from '../../src/plots/plan-input.ts';
import type { PlanMove } from '../../src/plots/plan-moves.ts';
import { firstSide, NARROWEST_PLAN, type PlanPage } from '../../src/plots/plan-page.ts';
import type { PlanSide } from '../../src/plots/plan-projection.ts';
import { hasHeights, planView } from '../../src/plots/plan-view.ts';
import { expectWithin } from '../expect-within.ts';
import { boxOf, overlap, pageOf, picture, points, runsThrough } from './plan-drawing.ts';
import { FRONT, KNOWN, ROOM } from './plan-set-ups.ts';
import { readingFixture } from './reading-fixture.ts';
import { expectStoredPicture } from './stored-picture.ts';

/** Paths are written to a tenth; a ratio of up to 900 : 267 of two lengths enlarges that. */
const ROUNDING = 0.35;
const PLAIN = { bringsEv: null, toward: null, caution: null };

const slide = (toward: number, rightMm: number | null = null, lamp = 0): Move => ({
  ...PLAIN,
  kind: 'slide-lamp',
  lamp,
  toward,
  rightMm,
  downMm: null,
  rightFrameWidths: null,
  downFrameWidths: null,
});
const farther = (ratio: number | null): Move => ({ ...PLAIN, kind: 'lamp-distance', lamp: 0, ratio });

function input(change: Partial<PlanInput> = {}): PlanInput {
  return {
    setup: KNOWN,
    aspect: 2 / 3,
    brighterDeg: 180,
    hottestAt: { x: 0.25, y: 0.5 },
    isHottestClipped: false,
    moves: [],
    foundLights: [],
    spill: null,
    ...change,
  };
}

function length(path: string): number {
  const [a, b] = points(path);
  return Math.hypot(b![0] - a![0], b![1] - a![1]);
}

test('planView(input) is at one scale: frame, light and distances as entered', () => {
  for (const side of ['above', 'side'] as const) {
    const plan = planView(input(), side, ROOM);
    const frameMm = side === 'above' ? 400 : (400 * 2) / 3;
    const perMm = length(plan.frame.path) / frameMm;
    expectWithin(length(plan.lights[0]!.axisPath), 600 * perMm, ROUNDING);
    expectWithin(length(plan.lights[0]!.path), 200 * perMm, ROUNDING);
    const [frameX, frameY] = points(plan.frame.path)[0]!;
    const away = side === 'above' ? plan.camera[1] - frameY : frameX - plan.camera[0];
    expectWithin(away, 900 * perMm, ROUNDING);
  }
});

test('behind a sheet the light stands on the far side, otherwise on the camera’s and out of shot', () => {
  const behind = planView(input(), 'above', ROOM);
  expect(behind.lights[0]!.at[1]).toBeLessThan(behind.frame.at[1]);
  expect(behind.camera[1]).toBeGreaterThan(behind.frame.at[1]);
  const front = planView(input({ setup: FRONT }), 'above', ROOM);
  const [frameLeft, frameRight] = points(front.frame.path);
  expect(front.lights[0]!.at[1]).toBeGreaterThan(front.frame.at[1]);
  expect(front.lights[0]!.at[0]).toBeLessThan(frameLeft![0]);
  expect(front.lights[1]!.at[0]).toBeGreaterThan(frameRight![0]);
});

test('a panel is the background itself: no light stands before or behind it', () => {
  expect(planView(input({ setup: { ...KNOWN, arrangement: 'panel' } }), 'above', ROOM).lights).toEqual([]);
});

test('the hottest spot lies where the reading has it along the frame', () => {
  const plan = planView(input(), 'above', ROOM);
  const [left, right] = points(plan.frame.path);
  expectWithin(plan.hottest.at[0], left![0] + (right![0] - left![0]) / 4, 0.2);
});

test('the brighter side is drawn in the view that shows it, and in neither where there is none', () => {
  const has = (brighterDeg: number | null, side: PlanSide) =>
    planView(input({ brighterDeg }), side, ROOM).brighter !== null;
  expect([has(180, 'above'), has(180, 'side')]).toEqual([true, false]);
  expect([has(90, 'above'), has(90, 'side')]).toEqual([false, true]);
  expect([has(45, 'above'), has(45, 'side')]).toEqual([true, true]);
  expect([has(null, 'above'), has(null, 'side')]).toEqual([false, false]);
});

test('planInput(reading) speaks of a brighter side only where a slope explains a fifth of the falloff', () => {
  const reading = readingFixture({ columns: 2, rows: 2 });
  const side = (explains: number) =>
    planInput({ ...reading, gradient: { ...reading.gradient, explains } }, KNOWN, null).brighterDeg;
  expect([side(0.19), side(0.2), side(1)]).toEqual([null, 0, 0]);
});

const arrowOf = (moves: readonly Move[], side: PlanSide = 'above', setup = KNOWN): PlanMove | undefined =>
  planView(input({ moves, setup }), side, ROOM).moves[0];

test('a move whose length is known is drawn to scale; a mere direction is not, and says so', () => {
  const plan = planView(input({ moves: [slide(0, 120)] }), 'above', ROOM);
  const perMm = length(plan.frame.path) / 400;
  expectWithin(length(plan.moves[0]!.path), 120 * perMm, ROUNDING);
  expect(plan.moves[0]!.isMeasured).toBe(true);
  const [from, to] = points(arrowOf([slide(180)])!.path);
  expect(to![0]).toBeLessThan(from![0]);
  expect(arrowOf([slide(180)])!.isMeasured).toBe(false);
});

test('without the frame’s width no arrow counts as measured', () => {
  expect(arrowOf([slide(0, 120)], 'above', { ...KNOWN, frameWidthMm: null })!.isMeasured).toBe(false);
});

test('a new distance ends where the light is to stand', () => {
  const plan = planView(input({ moves: [farther(1.5)] }), 'above', ROOM);
  const perMm = length(plan.frame.path) / 400;
  expectWithin(plan.frame.at[1] - plan.moves[0]!.at[1], 900 * perMm, ROUNDING);
  expect(plan.moves[0]!.isMeasured).toBe(true);
});

test('farther leads away from the surface on either side of it', () => {
  const behind = points(arrowOf([farther(null)])!.path);
  expect(behind[1]![1]).toBeLessThan(behind[0]![1]);
  const front = points(arrowOf([farther(null)], 'above', FRONT)!.path);
  expect(front[1]![1]).toBeGreaterThan(front[0]![1]);
});

test('a move up or down is seen from the side alone', () => {
  expect(arrowOf([slide(270)])).toBeUndefined();
  const [from, to] = points(arrowOf([slide(270)], 'side')!.path);
  expect(to![1]).toBeLessThan(from![1]);
});

test('hasHeights(input) asks for the side view where the slope or a move goes up or down', () => {
  expect(hasHeights(input({ brighterDeg: 180, moves: [slide(0)] }))).toBe(false);
  expect(hasHeights(input({ brighterDeg: 100 }))).toBe(true);
  expect(hasHeights(input({ brighterDeg: null, moves: [slide(270)] }))).toBe(true);
  expect(hasHeights(input({ brighterDeg: null, moves: [slide(0, 120)] }))).toBe(false);
});

test('a far camera is drawn nearer, with a break; a stand-in for an unknown one has none', () => {
  expect(planView(input({ setup: { ...KNOWN, cameraDistanceMm: 5000 } }), 'above', ROOM).breaksPath).not.toBe(
    '',
  );
  expect(planView(input(), 'above', ROOM).breaksPath).toBe('');
  expect(planView(input({ setup: UNKNOWN_SETUP }), 'above', ROOM).breaksPath).toBe('');
});

const SETUPS: readonly Setup[] = [
  KNOWN,
  FRONT,
  UNKNOWN_SETUP,
  { ...KNOWN, arrangement: 'bounced' },
  { ...KNOWN, arrangement: 'panel' },
  { ...FRONT, lampDistanceMm: [300, 1200] },
  { ...KNOWN, lampDistanceMm: [9000], cameraDistanceMm: 20_000, lampWidthMm: 3000 },
  { ...KNOWN, frameWidthMm: 4000, lampDistanceMm: [100] },
];
const MOVES: readonly (readonly Move[])[] = [
  [],
  [slide(200), farther(null)],
  [slide(0, 150, 1), farther(2), { ...PLAIN, kind: 'block-stray', fromDeg: 225 }],
];

test('on every plan all is drawn inside the page, and no note lies on another or under a thin line', () => {
  let pages = 0;
  for (const setup of SETUPS)
    for (const moves of MOVES)
      for (const side of ['above', 'side'] as const)
        for (const brighterDeg of [null, 135])
          for (const width of [NARROWEST_PLAN, 430, 500]) {
            const page = pageOf(input({ setup, moves, brighterDeg }), side, width);
            pages++;
            expect(page.drawnAt[0]).toBeGreaterThanOrEqual(-0.01);
            expect(page.drawnAt[0] + page.view.width).toBeLessThanOrEqual(page.width + 0.01);
            expect(page.drawnAt[1] + page.view.height).toBeLessThanOrEqual(page.height + 0.01);
            const boxes = page.notes.map(boxOf);
            for (const [i, box] of boxes.entries()) {
              expect(box.left).toBeGreaterThanOrEqual(-0.01);
              expect(box.top).toBeGreaterThanOrEqual(-0.01);
              expect(box.bottom).toBeLessThanOrEqual(page.height + 6);
              for (const other of boxes.slice(i + 1)) expect(overlap(box, other)).toBe(false);
              for (const { leaderPath } of page.notes) expect(runsThrough(leaderPath, box)).toBe(false);
            }
          }
  console.log(`measured: ${pages} plans laid out without a note on another`);
});

test('a wider page has a larger drawing, and its notes in the same column', () => {
  for (const setup of [KNOWN, FRONT, { ...FRONT, lampDistanceMm: [300, 1200] }])
    for (const side of ['above', 'side'] as const) {
      const [narrow, wide] = [NARROWEST_PLAN, 500].map((width) => pageOf(input({ setup }), side, width));
      const frameOf = ({ view }: PlanPage) => {
        const [from, to] = points(view.frame.path);
        return Math.hypot(to![0] - from![0], to![1] - from![1]);
      };
      const grown = frameOf(wide!) / frameOf(narrow!);
      console.log(`measured: the frame is ${grown.toFixed(2)} times as large on the wide page, ${side}`);
      expect(grown).toBeGreaterThan(500 / NARROWEST_PLAN);
      const columnOf = ({ notes, width }: PlanPage) => notes.map(({ textAt }) => width - textAt[0]);
      if (side === 'above') expect(columnOf(wide!)).toEqual(columnOf(narrow!));
    }
});

const DRAWN = [slide(0, 150), farther(1.5), slide(270)];
const PICTURES: readonly [string, Partial<PlanInput>, PlanSide][] = [
  ['plan-above', {}, 'above'],
  ['plan-side', { brighterDeg: 100 }, 'side'],
  ['plan-two-lights', { setup: FRONT }, 'above'],
  ['plan-unknown', { setup: UNKNOWN_SETUP }, 'above'],
];
for (const [name, change, side] of PICTURES)
  test(`planPage(input) draws the stored picture ${name}`, () => {
    expectStoredPicture(name, picture(pageOf(input({ moves: DRAWN, ...change }), side)));
  });

const SPILL = (fromDeg: number): Move => ({ ...PLAIN, kind: 'block-stray', fromDeg });
const FIRST: readonly [readonly Move[], 'above' | 'side'][] = [
  [[], 'above'],
  [[slide(0)], 'above'],
  [[slide(45)], 'above'],
  [[slide(90)], 'side'],
  [[SPILL(-90)], 'side'],
  [[SPILL(-90), slide(0)], 'above'],
];
test.each(FIRST)('firstSide(%j) is %s: where more of the moves are seen', (moves, side) => {
  expect(firstSide(input({ moves }))).toBe(side);
});

test('planInput(reading) knows no brighter side where the slope is not to speak of', () => {
  const gradient = readingFixture().gradient;
  const told = (change: Partial<typeof gradient>) =>
    planInput(readingFixture({}, { gradient: { ...gradient, ...change } }), UNKNOWN_SETUP, null).brighterDeg;
  expect(told({})).toBe(0);
  expect(told({ ev: 0.049 })).toBeNull();
  expect(told({ plusMinusEv: 0.7 })).toBeNull();
});
