import { expect, test } from 'vitest';
import type { Finding, Judgement, Reading } from '../../../src/engine/reading.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { verdictSentence } from '../../../src/screen/words/verdict-sentence.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';
import { tintByMired } from './tint-by-mired.ts';

const ASKED: Tolerance = {
  name: '0.3 stop across the frame',
  source: 'common practice, no published source',
  measure: 'range',
  limit: 0.3,
  tintDeltaUv: 0.004,
  castDeltaUv: 0.005,
};

const NOT_BLANK: Finding = {
  kind: 'not-blank',
  confidence: 1,
  ev: null,
  mired: null,
  at: { x: 0.5, y: 0.5 },
  says: 'Something is in the frame.',
  lengthsMm: null,
};

type Answer = 'yes' | 'no' | 'close';
const JUDGEMENT: Record<Answer, Judgement> = { yes: 'yes', no: 'no', close: 'too-close-to-say' };
const SPREAD: Record<Answer, number> = { yes: 0.2, no: 0.6, close: 0.31 };
const CAST: Record<Answer, Partial<Reading['cast']>> = {
  yes: { mired: 3, deltaUv: 0.0014, plusMinusDeltaUv: 0.0003, plusMinusMired: 1, duv: 0 },
  no: { mired: 18, deltaUv: 0.0085, plusMinusDeltaUv: 0.0003, plusMinusMired: 1, duv: 0 },
  close: { mired: 11, deltaUv: 0.0051, plusMinusDeltaUv: 0.0003, plusMinusMired: 1, duv: 0 },
};

interface Combination {
  readonly even: Answer;
  readonly neutral: Answer;
  readonly exposed: Answer;
  readonly clipped: boolean;
  readonly blank: boolean;
}

function readingOf({ even, neutral, exposed, clipped, blank }: Combination): Reading {
  const base = readingFixture({ tint: tintByMired((x) => 18 * x - 9) });
  return {
    ...base,
    falloff: {
      ...base.falloff,
      spreadEv: SPREAD[even],
      brightestAt: { x: 0.5, y: 0.4 },
      darkestAt: { x: 0.01, y: 0.5 },
      isLowerBound: clipped,
    },
    cast: { ...base.cast, ...CAST[neutral] },
    clipping: { highlightShare: clipped ? 0.034 : 0, shadowShare: 0 },
    findings: blank ? [] : [NOT_BLANK],
    verdict: { even: JUDGEMENT[even], neutral: JUDGEMENT[neutral], exposed: JUDGEMENT[exposed] },
  };
}

/**
 * Written by hand: what is to be said of evenness, by the answer, by whether clipping hides some of the fall and
 * whether nothing stands in the frame.
 */
const EVEN: readonly [Answer, clipped: boolean, blank: boolean, string][] = [
  ['yes', false, true, 'Even enough: within 0.2 stop across the frame; you asked for 0.3.'],
  ['yes', false, false, 'Looks even enough: within 0.2 stop across the frame; you asked for 0.3.'],
  ['yes', true, true, 'Even enough: at least 0.2 stop across the frame; you asked for 0.3.'], // never judged so
  ['yes', true, false, 'Looks even enough: at least 0.2 stop across the frame; you asked for 0.3.'], // nor so
  ...[true, false].flatMap((blank): [Answer, boolean, boolean, string][] => [
    ['no', false, blank, 'Within 0.6 stop across the frame; you asked for 0.3.'],
    ['no', true, blank, 'At least 0.6 stop across the frame; you asked for 0.3.'],
    ['close', false, blank, 'Too close to say: within 0.31 stop across the frame; you asked for 0.3.'],
    ['close', true, blank, 'Too close to say: at least 0.31 stop across the frame; you asked for 0.3.'],
  ]),
];
const CAVEAT = 'Something stands in the frame: these figures are of the light and of it together.';
/** Where it clips, neither the hottest spot nor its colour is known. */
const WHERE = (clipped: boolean) =>
  clipped
    ? 'Hottest somewhere in the clipped part; the left edge is down.'
    : 'Hottest just above centre; the left edge is down and cooler, by 9 mired (about 290 K at 5500 K).';
const KNOWN = (clipped: boolean) => (clipped ? ', as far as it is not clipped' : '');
const NEUTRAL: readonly [Answer, (clipped: boolean) => string][] = [
  [
    'yes',
    (clipped) =>
      `Neutral enough${KNOWN(clipped)}: 3 mired warmer (about 90 K at 5500 K) than the white of the file.`,
  ],
  [
    'no',
    (clipped) =>
      `Not neutral${KNOWN(clipped)}: 18 mired warmer (about 500 K at 5500 K) than the white of the file.`,
  ],
  [
    'close',
    (clipped) =>
      `Too close to say whether it is neutral${KNOWN(clipped)}: 11 mired warmer (about 310 K at 5500 K) than ` +
      'the white of the file, 0.0051 ± 0.0003 Δu′v′ in all; you asked for 0.005.',
  ],
];
const EXPOSED: readonly [Answer, clipped: boolean, string][] = [
  ['yes', false, ''],
  ['yes', true, ''],
  ['no', false, 'It is too dark for your limit: what noise and coding leave uncertain is too much of it.'],
  ['no', true, 'The exposure hides some of the light: 3 % of it is clipped.'],
  [
    'close',
    false,
    'It may be too dark for your limit: what noise and coding leave uncertain is too much of it.',
  ],
  ['close', true, 'The exposure may hide some of the light: 3 % of it is clipped.'],
];

/** The whole verdict as it is read from the page, with plain spaces where a line may not break. */
function wholeVerdict(reading: Reading): string {
  const { even, caveat, where, neutral, exposed } = verdictSentence(reading, ASKED);
  return [even, caveat, where, neutral, exposed]
    .filter((sentence) => sentence !== null)
    .join(' ')
    .replaceAll('\u00a0', ' ');
}

const WHOLE: readonly [Combination, string][] = EVEN.flatMap(([even, clipped, blank, evenSays]) =>
  NEUTRAL.flatMap(([neutral, neutralSays]) =>
    EXPOSED.filter(([, isClipped]) => isClipped === clipped).map(
      ([exposed, , exposedSays]): [Combination, string] => [
        { even, neutral, exposed, clipped, blank },
        [evenSays, blank ? '' : CAVEAT, WHERE(clipped), neutralSays(clipped), exposedSays]
          .filter((part) => part !== '')
          .join(' '),
      ],
    ),
  ),
);

test('the table holds every combination of even, neutral, exposed, clipped and blank once', () => {
  expect(WHOLE).toHaveLength(3 * 3 * 3 * 2 * 2);
  expect(new Set(WHOLE.map(([combination]) => JSON.stringify(combination))).size).toBe(108);
  expect(new Set(WHOLE.map(([, words]) => words)).size).toBe(108);
});

test.each(WHOLE)('verdictSentence(%j) says its row of the table', (combination, words) => {
  expect(wholeVerdict(readingOf(combination))).toBe(words);
});

test('verdictSentence(reading) reads as one paragraph that a photographer would say', () => {
  const miss = readingOf({ even: 'no', neutral: 'no', exposed: 'no', clipped: true, blank: false });
  expect(wholeVerdict(miss)).toBe(
    'At least 0.6 stop across the frame; you asked for 0.3. Something stands in the frame: these figures are of ' +
      'the light and of it together. Hottest somewhere in the clipped part; the left edge is down. Not neutral, as ' +
      'far as it is not clipped: 18 mired warmer (about 500 K at 5500 K) than the white of the file. ' +
      'The exposure hides some of the light: 3 % of it is clipped.',
  );
  const pass = readingOf({ even: 'yes', neutral: 'yes', exposed: 'yes', clipped: false, blank: true });
  expect(wholeVerdict(pass)).toBe(
    'Even enough: within 0.2 stop across the frame; you asked for 0.3. Hottest just above centre; the left edge ' +
      'is down and cooler, by 9 mired (about 290 K at 5500 K). Neutral enough: 3 mired warmer (about 90 K at ' +
      '5500 K) than the white of the file.',
  );
});
