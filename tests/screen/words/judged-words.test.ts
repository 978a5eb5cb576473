import { expect, test } from 'vitest';
import { judgeEven } from '../../../src/engine/diagnosis/verdict.ts';
import type { Falloff, Judgement } from '../../../src/engine/reading.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { digitsApart } from '../../../src/screen/words/judged-words.ts';
import { takeFigure } from '../../../src/screen/words/take-words.ts';
import { ownTolerance } from '../../../src/screen/words/tolerance-words.ts';
import { verdictSentence } from '../../../src/screen/words/verdict-sentence.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const spaced = (text: string) => text.replaceAll('\u00a0', ' ');
const BASE = readingFixture();

type Row = readonly [
  limit: Pick<Tolerance, 'measure' | 'limit'>,
  falloff: Partial<Falloff>,
  judged: Judgement,
  says: string,
  take: string,
];

/** Every measure with a plain pass and miss, a miss by a hair, and too close to say; each figure with its own ±. */
const ROWS: readonly Row[] = [
  [
    { measure: 'range', limit: 0.3 },
    { spreadEv: 0.2, plusMinusEv: 0.02 },
    'yes',
    'Even enough: within 0.2 stop across the frame; you asked for 0.3. ± 0.02 stop',
    '0.2 stop ± 0.02',
  ],
  [
    { measure: 'range', limit: 0.28 },
    { spreadEv: 0.27, plusMinusEv: 0.002 },
    'yes',
    'Even enough: within 0.27 stop across the frame; you asked for 0.28. ± under 0.01 stop',
    '0.27 stop ± under 0.01',
  ],
  [
    { measure: 'range', limit: 0.3 },
    { spreadEv: 1.3, plusMinusEv: 0.04 },
    'no',
    'Within 1.3 stops across the frame; you asked for 0.3. ± 0.04 stop',
    '1.3 stops ± 0.04',
  ],
  [
    { measure: 'range', limit: 0.29 },
    { spreadEv: 0.294, plusMinusEv: 0.002 },
    'no',
    'Within 0.3 stop across the frame; you asked for 0.29. ± under 0.01 stop',
    '0.3 stop ± under 0.01',
  ],
  [
    { measure: 'range', limit: 0.3 },
    { spreadEv: 0.3004, plusMinusEv: 0.0003 },
    'no',
    'Not even enough: within 0.3004 stop across the frame; you asked for 0.3. ± under 0.01 stop',
    '0.3004 stop ± under 0.01',
  ],
  [
    { measure: 'range', limit: 0.3 },
    { spreadEv: 0.31, plusMinusEv: 0.02 },
    'too-close-to-say',
    'Too close to say: within 0.31 stop across the frame; you asked for 0.3. ± 0.02 stop',
    '0.31 stop ± 0.02',
  ],
  [
    { measure: 'from-centre', limit: 0.1 },
    { fromCentreMax: 0.08, plusMinusEv: 0.01 },
    'yes',
    'Even enough: up to 8 % from the centre; you asked for 10 %. ± 0.7 %',
    '8 % ± 0.7 %',
  ],
  [
    { measure: 'from-centre', limit: 0.125 },
    { fromCentreMax: 0.174, plusMinusEv: 0.0005 },
    'no',
    'Up to 17 % from the centre; you asked for 12.5 %. ± under 0.1 %',
    '17 % ± under 0.1 %',
  ],
  [
    { measure: 'from-centre', limit: 0.1 },
    { fromCentreMax: 0.104, plusMinusEv: 0.003 },
    'no',
    'Not even enough: up to 10.4 % from the centre; you asked for 10 %. ± 0.2 %',
    '10.4 % ± 0.2 %',
  ],
  [
    { measure: 'from-centre', limit: 0.1 },
    { fromCentreMax: 0.104, plusMinusEv: 0.01 },
    'too-close-to-say',
    'Too close to say: up to 10.4 % from the centre; you asked for 10 %. ± 0.8 %',
    '10.4 % ± 0.8 %',
  ],
  [
    { measure: 'nine-point-min-max', limit: 0.75 },
    { ninePointMinOverMax: 0.81, plusMinusEv: 0.02 },
    'yes',
    'Even enough: the darkest has 81 % of the brightest of nine points; you asked for 75 %. ± 1.1 %',
    '19 % ± 1.1 %',
  ],
  [
    { measure: 'nine-point-min-max', limit: 0.75 },
    { ninePointMinOverMax: 0.52, plusMinusEv: 0.02 },
    'no',
    'The darkest has 52 % of the brightest of nine points; you asked for 75 %. ± 0.7 %',
    '48 % ± 0.7 %',
  ],
  [
    { measure: 'nine-point-min-max', limit: 0.75 },
    { ninePointMinOverMax: 0.747, plusMinusEv: 0.002 },
    'no',
    'Not even enough: the darkest has 74.7 % of the brightest of nine points; you asked for 75 %. ± 0.1 %',
    '25.3 % ± 0.1 %',
  ],
  [
    { measure: 'nine-point-min-max', limit: 0.75 },
    { ninePointMinOverMax: 0.747, plusMinusEv: 0.02 },
    'too-close-to-say',
    'Too close to say: the darkest has 74.7 % of the brightest of nine points; you asked for 75 %. ± 1.0 %',
    '25.3 % ± 1.0 %',
  ],
  [
    { measure: 'min-over-mean', limit: 0.6 },
    { minOverMean: 0.72, plusMinusEv: 0.02 },
    'yes',
    'Even enough: the darkest has 72 % of the mean; you asked for 60 %. ± 1.0 %',
    '28 % ± 1.0 %',
  ],
  [
    { measure: 'min-over-mean', limit: 0.6 },
    { minOverMean: 0.52, plusMinusEv: 0.02 },
    'no',
    'The darkest has 52 % of the mean; you asked for 60 %. ± 0.7 %',
    '48 % ± 0.7 %',
  ],
  [
    { measure: 'min-over-mean', limit: 0.6 },
    { minOverMean: 0.598, plusMinusEv: 0.001 },
    'no',
    'Not even enough: the darkest has 59.8 % of the mean; you asked for 60 %. ± under 0.1 %',
    '40.2 % ± under 0.1 %',
  ],
  [
    { measure: 'min-over-mean', limit: 0.6 },
    { minOverMean: 0.598, plusMinusEv: 0.02 },
    'too-close-to-say',
    'Too close to say: the darkest has 59.8 % of the mean; you asked for 60 %. ± 0.8 %',
    '40.2 % ± 0.8 %',
  ],
];

test.each(ROWS)('under %j, %j is judged %s and said so: %s', (limit, change, judged, says, take) => {
  const tolerance = ownTolerance(DEFAULT_TOLERANCE, limit);
  const falloff = { ...BASE.falloff, ...change };
  expect(judgeEven(falloff, tolerance)).toBe(judged);
  const words = verdictSentence({ ...BASE, falloff, verdict: { ...BASE.verdict, even: judged } }, tolerance);
  expect(spaced(`${words.even} ${words.plusMinus}`)).toBe(says);
  expect(spaced(takeFigure(falloff, tolerance))).toBe(take);
});

const LEAST: readonly [Tolerance['measure'], limit: number, string][] = [
  ['range', 0.3, 'At least 2.1 stops across the frame; you asked for 0.3.'],
  ['from-centre', 0.1, 'At least 40 % from the centre; you asked for 10 %.'],
  [
    'nine-point-min-max',
    0.75,
    'The darkest has at most 30 % of the brightest of nine points; you asked for 75 %.',
  ],
  ['min-over-mean', 0.6, 'The darkest has at most 35 % of the mean; you asked for 60 %.'],
];
test.each(LEAST)('a clipped frame under %s ≤ %f is a bound without a ±: %s', (measure, limit, says) => {
  const tolerance = ownTolerance(DEFAULT_TOLERANCE, { measure, limit });
  const falloff: Falloff = {
    ...BASE.falloff,
    spreadEv: 2.1,
    fromCentreMax: 0.4,
    ninePointMinOverMax: 0.3,
    minOverMean: 0.35,
    isLowerBound: true,
  };
  const words = verdictSentence({ ...BASE, falloff }, tolerance);
  expect(spaced(words.even)).toBe(says);
  expect(words.plusMinus).toBeNull();
  expect(takeFigure(falloff, tolerance)).toMatch(/^at least [^±]*$/);
});

test('a figure of a part of the frame is told of the part', () => {
  const part = { ...BASE, region: { left: 0.1, top: 0.1, right: 0.6, bottom: 0.6 } };
  expect(verdictSentence(part, DEFAULT_TOLERANCE).even).toMatch(
    /across the part read; you asked for 0\.3\.$/,
  );
});

test('digitsApart prints every figure on its own side of the limit', () => {
  for (let thousandths = 1; thousandths < 1000; thousandths++) {
    const figure = thousandths / 1000;
    const printed = Number(figure.toFixed(digitsApart(figure, 0.3, 1)));
    expect(printed > 0.3).toBe(figure > 0.3);
    const share = Number(figure.toFixed(digitsApart(figure, 0.75, 0, true)));
    expect(share >= 0.75).toBe(figure >= 0.75);
  }
});
