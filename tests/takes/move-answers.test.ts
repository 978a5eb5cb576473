import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import {
  carriedAnswers,
  doneMoves,
  type MoveAnswer,
  madeAsTold,
  measurable,
  measuredDistances,
} from '../../src/takes/move-answers.ts';
import { expectWithin } from '../expect-within.ts';

const PLAIN = { bringsEv: null, toward: null, caution: null };
const SLIDE = {
  ...PLAIN,
  kind: 'slide-lamp',
  lamp: 0,
  toward: 0,
  rightMm: null,
  downMm: null,
  rightFrameWidths: null,
  downFrameWidths: null,
} as const satisfies Move;
const FARTHER = { ...PLAIN, kind: 'lamp-distance', lamp: 0, ratio: null } as const satisfies Move;
const TURN = {
  ...PLAIN,
  kind: 'turn-lamp',
  lamp: 0,
  aimRightMm: 30,
  aimDownMm: 40,
  aimRightFrameWidths: null,
  aimDownFrameWidths: null,
} as const satisfies Move;
const EXPOSE = { ...PLAIN, kind: 'expose', stops: -1 } as const satisfies Move;
const KNOWN: Setup = { ...UNKNOWN_SETUP, frameWidthMm: 400, lampDistanceMm: [600] };

const made = (move: Move, answer: MoveAnswer | null, setup = KNOWN) => doneMoves([move], [answer], setup)[0];

test('doneMoves(moves, answers) leaves out what was not done and what was not answered', () => {
  const moves = [SLIDE, FARTHER, EXPOSE];
  expect(doneMoves(moves, [{ kind: 'not-done' }, null, { kind: 'done' }], KNOWN)).toEqual([EXPOSE]);
  expect(doneMoves(moves, [], KNOWN)).toEqual([]);
});

test('doneMoves(moves, answers) passes a move done as advised on as it is', () => {
  expect(made(SLIDE, { kind: 'done' })).toBe(SLIDE);
});

test('a length that was measured goes along the direction advised, in mm and in widths of the frame', () => {
  const slid = made({ ...SLIDE, toward: 90 }, { kind: 'moved', mm: 120 });
  if (slid?.kind !== 'slide-lamp') throw new Error('a slide was expected');
  expectWithin(slid.rightMm!, 0, 1e-9);
  expectWithin(slid.downMm!, 120, 1e-9);
  expectWithin(slid.downFrameWidths!, 0.3, 1e-9);

  const upLeft = made({ ...SLIDE, toward: 225 }, { kind: 'moved', mm: 100 });
  if (upLeft?.kind !== 'slide-lamp') throw new Error('a slide was expected');
  expectWithin(upLeft.rightMm!, -100 * Math.SQRT1_2, 1e-9);
  expectWithin(upLeft.downMm!, -100 * Math.SQRT1_2, 1e-9);

  const turned = made(TURN, { kind: 'moved', mm: 100 });
  if (turned?.kind !== 'turn-lamp') throw new Error('a turn was expected');
  expectWithin(turned.aimRightMm!, 60, 1e-9);
  expectWithin(turned.aimDownMm!, 80, 1e-9);
});

test('a measured length keeps the direction of an advised one', () => {
  const advised: Move = { ...SLIDE, toward: null, rightMm: -200, downMm: 0 };
  expect(made(advised, { kind: 'moved', mm: 50 })).toMatchObject({ rightMm: -50, rightFrameWidths: -0.125 });
});

test('frame widths stay unknown where the frame’s width is', () => {
  const slid = made(SLIDE, { kind: 'moved', mm: 120 }, UNKNOWN_SETUP);
  expect(slid).toMatchObject({ rightMm: 120, rightFrameWidths: null });
});

test('an unmeasured "I moved it" keeps the direction and no length', () => {
  expect(made({ ...SLIDE, rightMm: 200 }, { kind: 'moved', mm: null })).toMatchObject({
    kind: 'slide-lamp',
    toward: 0,
    rightMm: null,
    downMm: null,
  });
});

test('a new distance gives the ratio, from the entered old one or the set-up’s; unknown, none', () => {
  expect(made(FARTHER, { kind: 'stands', fromMm: null, toMm: 900 })).toMatchObject({ ratio: 1.5 });
  expect(made(FARTHER, { kind: 'stands', fromMm: 450, toMm: 900 })).toMatchObject({ ratio: 2 });
  expect(made(FARTHER, { kind: 'stands', fromMm: null, toMm: 900 }, UNKNOWN_SETUP)).toMatchObject({
    ratio: null,
  });
  expect(made({ ...FARTHER, ratio: 2 }, { kind: 'stands', fromMm: null, toMm: null })).toMatchObject({
    ratio: null,
  });
});

test('measurable(move) asks how far of slides and turns, from where to where of distances, nothing else', () => {
  expect([SLIDE, TURN, FARTHER, EXPOSE].map(measurable)).toEqual(['moved', 'moved', 'stands', null]);
});

test('carriedAnswers keeps each answer with its move when the list is advised anew', () => {
  const right: Move = { ...SLIDE, lamp: 1 };
  const answers: MoveAnswer[] = [{ kind: 'done' }, { kind: 'moved', mm: 30 }, { kind: 'not-done' }];
  expect(carriedAnswers([SLIDE, right, FARTHER], answers, [EXPOSE, right, FARTHER])).toEqual([
    null,
    { kind: 'moved', mm: 30 },
    { kind: 'not-done' },
  ]);
});

test('carriedAnswers tells two moves of one kind apart by their order', () => {
  const spill: Move = { ...PLAIN, kind: 'block-stray', fromDeg: 0 };
  const answers: MoveAnswer[] = [{ kind: 'done' }, { kind: 'not-done' }];
  expect(carriedAnswers([spill, spill], answers, [spill, spill, spill])).toEqual([...answers, null]);
});

test('measuredDistances(moves, answers) are those that were measured after a move, per light', () => {
  const right = { ...FARTHER, lamp: 1 };
  const at = (toMm: number | null): MoveAnswer => ({ kind: 'stands', fromMm: null, toMm });
  expect(measuredDistances([SLIDE, right], [{ kind: 'moved', mm: 90 }, at(900)])).toEqual([null, 900]);
  expect(measuredDistances([FARTHER, right], [at(700), at(null)])).toEqual([700]);
  expect(measuredDistances([FARTHER], [{ kind: 'done' }])).toEqual([]);
});

test('madeAsTold(moves, answers) takes what was not answered for done, and framing tighter for instead', () => {
  const tighter = { ...PLAIN, kind: 'frame-tighter', left: 0.1, top: 0.1, right: 0.9, bottom: 0.9 } as const;
  const done = { kind: 'done' } as const;
  const not = { kind: 'not-done' } as const;
  expect(madeAsTold([SLIDE, FARTHER, tighter], [null, not, null])).toEqual([done, not, not]);
  expect(madeAsTold([SLIDE], [])).toEqual([done]);
  expect(madeAsTold([tighter], [null])).toEqual([done]);
  expect(madeAsTold([EXPOSE, tighter], [null, done])).toEqual([done, done]);
  expect(madeAsTold([], [])).toEqual([]);
});
