import { describe, expect, test } from 'vitest';
import type { SecondFrameRole } from '../../../src/engine/lamps/second-frame.ts';
import {
  hintWords,
  offerWords,
  parseSlide,
  parseStops,
  type SlideSide,
  slideFigure,
  slideSlipWords,
  slideWords,
  slidTo,
  stopsSlipWords,
  stopsWords,
  usedWords,
} from '../../../src/screen/words/second-frame-words.ts';
import { expectWithin } from '../../expect-within.ts';

test.each<[SlideSide, number, number]>([
  ['right', 0.33, 0],
  ['left', -0.33, 0],
  ['up', 0, -0.33],
  ['down', 0, 0.33],
])('slidTo(%s) is that way as seen from behind the camera', (side, rightFrameWidths, downFrameWidths) => {
  expect(slidTo(side, 0.33)).toEqual({ kind: 'shifted', rightFrameWidths, downFrameWidths });
});

test.each([
  [true, false, 'Settle it with a second frame, shot with'],
  [true, true, 'Settle it with a further frame, shot with'],
  [false, false, 'A second frame tells light, lens and room apart: one shot with'],
  [false, true, 'A further frame can be added, shot with'],
])('offerWords(in doubt %s, has one %s)', (isInDoubt, hasOne, says) => {
  expect(offerWords(isInDoubt, hasOne)).toBe(says);
});

test.each([
  ['lamp-off', null, /^Tells what the room itself adds\. Same exposure, lights off, room as it was/],
  [
    'shifted',
    'flash',
    /^Tells what goes along with the camera, .* from the light, which stays\. Slide .*, don’t turn it; same focus/,
  ],
  ['stopped-down', 'continuous', /make up for it with a slower shutter\.$/],
  ['stopped-down', 'flash', /make up for it with ISO\.$/],
  ['stopped-down', null, /make up for it with a slower shutter, or ISO with flash\.$/],
] as const)('hintWords(%s, %s)', (kind, light, says) => {
  expect(hintWords(kind, light)).toMatch(says);
});

test.each([
  [0.33, null, 'cm', '33\u00a0% of the frame’s width', '33\u00a0%'],
  [0.125, null, 'in', '12.5\u00a0% of the frame’s width', '12.5\u00a0%'],
  [0.33, 420, 'cm', '13.9 cm', '13.9 cm'],
  [0.33, 420, 'in', '5.5 in', '5.5 in'],
] as const)('slideWords(%d of %s mm, %s)', (frameWidths, frameWidthMm, unit, says, figure) => {
  expect(slideWords(frameWidths, frameWidthMm, unit)).toBe(says);
  expect(slideFigure(frameWidths, frameWidthMm, unit)).toBe(figure);
});

describe('parseSlide(text)', () => {
  test.each<[string, number | null, 'cm' | 'in', number | null]>([
    ['33', null, 'cm', 0.33],
    ['33 %', null, 'cm', 0.33],
    ['12,5%', null, 'in', 0.125],
    ['100 %', null, 'cm', 1],
    ['25 %', 400, 'cm', 0.25],
    ['10', 400, 'cm', 0.25],
    ['10', 254, 'in', 1],
    ['4 in', 406.4, 'cm', 0.25],
    ['1 ft', 400, 'cm', 0.762],
    ['', null, 'cm', null],
    ['a bit', null, 'cm', null],
    ['0', null, 'cm', null],
    ['-20', null, 'cm', null],
    ['101 %', null, 'cm', null],
    ['14 cm', null, 'cm', null],
    ['50 cm', 400, 'cm', null],
    ['20 % left', 400, 'cm', null],
  ])('"%s" where the frame shows %s mm, in %s', (text, frameWidthMm, unit, frameWidths) => {
    const parsed = parseSlide(text, frameWidthMm, unit);
    if (frameWidths === null) expect(parsed).toBeNull();
    else expectWithin(parsed!, frameWidths, 1e-9);
  });

  test('a slip is told with what could be typed, and what stays', () => {
    expect(slideSlipWords('a bit', 0.33, 420, 'cm')).toBe(
      '“a bit” is no slide from 1 to 100\u00a0% of the frame’s width: 13.9 cm stays.',
    );
    expect(slideSlipWords('14 cm', 0.33, null, 'cm')).toBe(
      '“14 cm” is no slide from 1 to 100\u00a0% of the frame’s width: 33\u00a0% stays. Lengths need the width that the frame shows.',
    );
  });
});

test.each([
  ['2', 2],
  ['1,5 stops', 1.5],
  ['1 stop', 1],
  ['0.7 EV', 0.7],
  ['0', null],
  ['0.1', null],
  ['11', null],
  ['-2', null],
  ['two', null],
  ['', null],
])('parseStops("%s")', (text, stops) => {
  expect(parseStops(text)).toBe(stops);
});

test('stops are spoken of in the plural above one, and a slip tells what stays', () => {
  expect([0.7, 1, 1.5, 2].map(stopsWords)).toEqual([
    '0.7\u00a0stop',
    '1\u00a0stop',
    '1.5\u00a0stops',
    '2\u00a0stops',
  ]);
  expect(stopsSlipWords('two', 2)).toBe('“two” is no number of stops from 0.3 to 10: 2\u00a0stops stays.');
});

describe('usedWords(role)', () => {
  const one = { name: 'room-dark.png', averagedFrames: 1 };
  const slid = (rightFrameWidths: number, downFrameWidths: number): SecondFrameRole => ({
    kind: 'shifted',
    rightFrameWidths,
    downFrameWidths,
  });
  test.each<[SecondFrameRole, number | null, string]>([
    [{ kind: 'lamp-off' }, null, 'room-dark.png, the lights off'],
    [slid(0.33, 0), null, 'room-dark.png, the camera slid 33\u00a0% of the frame’s width to the right'],
    [slid(-0.25, 0), 400, 'room-dark.png, the camera slid 10 cm to the left'],
    [slid(0, -0.25), 400, 'room-dark.png, the camera slid 10 cm up'],
    [slid(0.5, 0.1), 400, 'room-dark.png, the camera slid 20 cm to the right and 4 cm down'],
    [{ kind: 'stopped-down', stops: 2 }, null, 'room-dark.png, the lens stopped down 2\u00a0stops'],
  ])('%o', (role, frameWidthMm, says) => {
    expect(usedWords(role, one, frameWidthMm, 'cm')).toBe(says);
  });
  test('of several averaged', () => {
    expect(usedWords({ kind: 'lamp-off' }, { ...one, averagedFrames: 3 }, null, 'cm')).toBe(
      'room-dark.png and 2 more, the lights off',
    );
  });
});
