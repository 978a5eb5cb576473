import { expect, test } from 'vitest';
import type { CleanWhite } from '../../../src/engine/aims/clean-white.ts';
import type { JudgedRamp } from '../../../src/engine/aims/judged-ramp.ts';
import type { Judgement, Reading } from '../../../src/engine/reading.ts';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../../../src/engine/tolerances.ts';
import { signWords } from '../../../src/screen/words/sign-words.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const reading = readingFixture({ ev: (x) => -0.6 * x });
const judged = (even: Judgement, change: Partial<Reading['verdict']> = {}) => ({
  ...reading,
  verdict: { even, neutral: 'yes', exposed: 'yes', ...change } as const,
});
const plain = (words: string) => words.replaceAll('\u00a0', ' ');

test('the verdict is short, and says in words and figures what colour is not there to say', () => {
  expect(signWords(judged('no'), DEFAULT_TOLERANCE)).toMatchObject({
    verdict: 'Not yet',
    limit: 'limit 0.3',
    also: null,
  });
  expect(plain(signWords(judged('no'), DEFAULT_TOLERANCE).found)).toBe('0.6 stop');
  expect(signWords(judged('yes'), DEFAULT_TOLERANCE).verdict).toBe('Even');
  expect(signWords(judged('too-close-to-say'), DEFAULT_TOLERANCE).verdict).toBe('Too close to say');
});

test('what else is wrong is said too, so that “Even” is not taken for done', () => {
  expect(signWords(judged('yes', { neutral: 'no' }), DEFAULT_TOLERANCE).also).toBe('not neutral');
  expect(signWords(judged('yes', { neutral: 'no', exposed: 'no' }), DEFAULT_TOLERANCE).also).toBe(
    'not neutral; the exposure hides some of it',
  );
});

test('bounds are said as bounds, whichever way they lie', () => {
  const clipped = { ...judged('no'), falloff: { ...reading.falloff, isLowerBound: true } };
  expect(plain(signWords(clipped, DEFAULT_TOLERANCE).found)).toBe('at least 0.6 stop');
  const nine = TOLERANCES.find(({ measure }) => measure === 'nine-point-min-max')!;
  expect(plain(signWords(clipped, nine).found)).toBe('at most 75 %');
});

test('another aim is judged by what it asks for, however even the light is', () => {
  const aim = { kind: 'clean-white', whiteCode: null, mostOverEv: 0.5 } as const;
  const white = {
    kind: 'clean-white',
    aim,
    overEv: 0.43,
    isOverAtLeast: false,
    verdict: 'yes',
  } as CleanWhite;
  const clean = signWords(judged('no'), DEFAULT_TOLERANCE, white);
  expect([clean.verdict, plain(clean.found), clean.limit]).toEqual([
    'Clean white',
    '0.4 stop over white',
    'limit 0.5',
  ]);
  const hidden = signWords(judged('yes'), DEFAULT_TOLERANCE, {
    ...white,
    verdict: 'no',
    isOverAtLeast: true,
  });
  expect([hidden.verdict, plain(hidden.found)]).toEqual(['Not yet', 'at least 0.4 stop over white']);
  const unlit = signWords(judged('yes'), DEFAULT_TOLERANCE, {
    ...white,
    ...{ verdict: 'too-close-to-say', overEv: null },
  });
  expect([unlit.verdict, unlit.found]).toEqual(['Too close to say', 'no light in one colour']);
  const left = { ...reading.falloff, spreadEv: 0.2 };
  const ramp = { kind: 'ramp', leftOver: left, verdict: 'yes' } as Partial<JudgedRamp> as JudgedRamp;
  const asked = signWords(judged('no'), DEFAULT_TOLERANCE, ramp);
  expect([asked.verdict, plain(asked.found), asked.limit]).toEqual(['As asked', '0.2 stop', 'limit 0.3']);
});
