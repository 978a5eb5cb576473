import { describe, expect, test } from 'vitest';
import type { Aim } from '../../../src/engine/aim.ts';
import type { CleanWhite } from '../../../src/engine/aims/clean-white.ts';
import type { JudgedRamp } from '../../../src/engine/aims/judged-ramp.ts';
import { WHOLE_FRAME } from '../../../src/engine/reading.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { aimSentences, aimWords, evenTooWords, sideWords } from '../../../src/screen/words/aim-words.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const spaced = (words: string) => words.replaceAll('\u00a0', ' ');

const WHITE: CleanWhite = {
  kind: 'clean-white',
  aim: { kind: 'clean-white', whiteCode: null, mostOverEv: 1 },
  reachedShare: 0,
  reachedShareLeast: 0,
  reachedShareMost: 0,
  changeEv: 1.62,
  changePlusMinusEv: 0.02,
  overEv: 0.62,
  overPlusMinusEv: 0.02,
  isOverAtLeast: false,
  isUnlitInPart: false,
  verdict: 'yes',
};

const { evMap: _map, ...FALLOFF } = readingFixture().falloff;
const RAMP: JudgedRamp = {
  kind: 'ramp',
  aim: { kind: 'ramp', angleDeg: 315, ev: 2 },
  turnDeg: 12.4,
  turnPlusMinusDeg: 1.2,
  moreEv: -0.23,
  morePlusMinusEv: 0.05,
  leftOver: { ...FALLOFF, spreadEv: 0.62, plusMinusEv: 0.02 },
  verdict: 'no',
};

describe('the verdict on clean white', () => {
  test.each<[Partial<CleanWhite>, string]>([
    [
      {},
      'Clean white is in reach: with 1.6 stops more the darkest point just reaches paper white, and the hottest is then 0.6 stop over it; you allow 1.',
    ],
    [
      { verdict: 'no', overEv: 1.42, changeEv: -0.31 },
      'Not even enough for clean white: with 0.3 stop less the darkest point just reaches paper white, and the hottest is then 1.4 stops over it; you allow 1.',
    ],
    [
      { verdict: 'too-close-to-say', isOverAtLeast: true, changeEv: 0.02 },
      'Too close to say whether it can be clean white: the darkest point just reaches paper white, and the hottest is then at least 0.6 stop over it; you allow 1.',
    ],
    // what misses by a hair does not print as the limit itself
    [
      { verdict: 'no', overEv: 1.02 },
      'Not even enough for clean white: with 1.6 stops more the darkest point just reaches paper white, and the hottest is then 1.02 stops over it; you allow 1.',
    ],
  ])('%j', (change, sentence) => {
    const { verdict } = aimSentences({ ...WHITE, ...change }, DEFAULT_TOLERANCE, WHOLE_FRAME);
    expect(spaced(verdict)).toBe(sentence);
  });

  test.each<[Partial<CleanWhite>, string]>([
    [{}, 'As shot, none of it is paper white; its darkest point lies 1.6 stops ± 0.02 below it.'],
    [
      { reachedShare: 0.31, reachedShareLeast: 0.3, reachedShareMost: 0.33, changePlusMinusEv: null },
      'As shot, 31 % of it is paper white (30 % to 33 % with the ±); its darkest point lies 1.6 stops below it.',
    ],
    [
      { aim: { ...WHITE.aim, whiteCode: 250 }, reachedShareMost: 0 },
      'As shot, none of it is paper white, from code 250 on; its darkest point lies 1.6 stops ± 0.02 below it.',
    ],
  ])('%j, as shot', (change, sentence) => {
    const { more, practice } = aimSentences({ ...WHITE, ...change }, DEFAULT_TOLERANCE, WHOLE_FRAME);
    expect(spaced(more.at(-1)!)).toBe(sentence);
    expect(practice).toContain('Common practice, no published source.');
  });

  test('says that clipping leaves a bound only', () => {
    const { more, plusMinus } = aimSentences(
      { ...WHITE, isOverAtLeast: true },
      DEFAULT_TOLERANCE,
      WHOLE_FRAME,
    );
    expect(more[0]).toContain('is a bound only');
    expect(plusMinus).toBeNull();
  });
});

test('no figure stands where a colour has no light, and a bound where it has none in part', () => {
  const unlit = { changeEv: null, changePlusMinusEv: null, overEv: null, isUnlitInPart: true } as const;
  const dark = aimSentences(
    { ...WHITE, ...unlit, verdict: 'too-close-to-say' },
    DEFAULT_TOLERANCE,
    WHOLE_FRAME,
  );
  expect(dark.verdict).toBe(
    'Too close to say whether it can be clean white: one colour has no light to speak of, which no exposure brings to paper white.',
  );
  expect(dark.more).toEqual(['As shot, none of it is paper white.']);
  expect(dark.plusMinus).toBeNull();
  const part = aimSentences({ ...WHITE, isUnlitInPart: true }, DEFAULT_TOLERANCE, WHOLE_FRAME);
  expect(spaced(part.verdict)).toContain('the hottest is then at least 0.6 stop over it');
  expect(part.plusMinus).toBeNull();
  expect(part.more[0]).toContain('In part of the frame one colour has no light');
});

describe('the verdict on a ramp', () => {
  test.each<[Partial<JudgedRamp>, string]>([
    [{}, 'Not your ramp: within 0.6 stop of a straight one towards the top right; you asked for 0.3.'],
    [
      { verdict: 'yes', leftOver: { ...RAMP.leftOver, spreadEv: 0.12 } },
      'Your ramp: within 0.1 stop of a straight one towards the top right; you asked for 0.3.',
    ],
    [
      { verdict: 'too-close-to-say', leftOver: { ...RAMP.leftOver, spreadEv: 0.28 } },
      'Too close to say whether it is your ramp: within 0.3 stop of a straight one towards the top right; you asked for 0.3.',
    ],
  ])('%j', (change, sentence) => {
    const { verdict } = aimSentences({ ...RAMP, ...change }, DEFAULT_TOLERANCE, WHOLE_FRAME);
    expect(spaced(verdict)).toBe(sentence);
  });

  test.each<[Partial<JudgedRamp>, string]>([
    [
      {},
      'The light’s own slope is 1.8 stops ± 0.05 where you asked for 2, turned 12° ± 1° clockwise from it.',
    ],
    [
      { turnDeg: -40, turnPlusMinusDeg: null },
      'The light’s own slope is 1.8 stops ± 0.05 where you asked for 2, turned 40° anticlockwise from it.',
    ],
    [
      { turnDeg: 0.2 },
      'The light’s own slope is 1.8 stops ± 0.05 where you asked for 2, in the direction that you asked for.',
    ],
    [{ turnDeg: null }, 'The light has no slope to speak of.'],
  ])('%j, how the light goes', (change, sentence) => {
    const { more } = aimSentences({ ...RAMP, ...change }, DEFAULT_TOLERANCE, WHOLE_FRAME);
    expect(spaced(more[0]!)).toBe(sentence);
  });
});

test.each([
  [0, 'right'],
  [45, 'bottom right'],
  [270, 'top'],
  [315, 'top right'],
  [300, 'side 300° clockwise from the right'],
])('a ramp of angle %d is brighter towards the %s', (angle, words) => expect(sideWords(angle)).toBe(words));

test.each<[Aim, string]>([
  [{ kind: 'even' }, 'even'],
  [WHITE.aim, 'clean white, where the file clips, the hottest at most 1 stop over it'],
  [
    { ...WHITE.aim, whiteCode: 250, mostOverEv: 2 },
    'clean white, from code 250 on, the hottest at most 2 stops over it',
  ],
  [RAMP.aim, 'a ramp of 2 stops, brighter towards the top right'],
])('aimWords(%j)', (aim, words) => expect(aimWords(aim)).toBe(words));

test('the even verdict follows an aim’s in one line', () => {
  expect(evenTooWords('Even enough: within 0.2 stop; you asked for 0.3.')).toBe(
    'As an even background: even enough, within 0.2 stop; you asked for 0.3.',
  );
});
