import { expect, test } from 'vitest';
import type { Reading } from '../../../src/engine/reading.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { verdictSentence } from '../../../src/screen/words/verdict-sentence.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';
import { tintByMired } from './tint-by-mired.ts';

/** With plain spaces, where a line may not break. */
const spaced = (text: string | null) => text?.replaceAll('\u00a0', ' ') ?? null;

const THIRD: Tolerance = {
  name: '0.3 stop across the frame',
  source: 'common practice, no published source',
  measure: 'range',
  limit: 0.3,
  tintDeltaUv: 0.004,
  castDeltaUv: 0.005,
};
const BASE = readingFixture({ tint: tintByMired((x) => 18 * x - 9) });

function reading(change: {
  falloff?: Partial<Reading['falloff']>;
  cast?: Partial<Reading['cast']>;
  tint?: Partial<Reading['tint']>;
  gradient?: Partial<Reading['gradient']>;
  verdict?: Partial<Reading['verdict']>;
  clipping?: Partial<Reading['clipping']>;
}): Reading {
  return {
    ...BASE,
    falloff: {
      ...BASE.falloff,
      spreadEv: 0.6,
      brightestAt: { x: 0.5, y: 0.4 },
      darkestAt: { x: 0.01, y: 0.5 },
      ...change.falloff,
    },
    cast: { ...BASE.cast, ...change.cast },
    tint: { ...BASE.tint, ...change.tint },
    gradient: { ...BASE.gradient, ...change.gradient },
    verdict: { ...BASE.verdict, ...change.verdict },
    clipping: { ...BASE.clipping, ...change.clipping },
  };
}

const EVENNESS: readonly [string, Reading, Tolerance, string][] = [
  ['a miss', reading({}), THIRD, 'Within 0.6 stop across the frame; you asked for 0.3.'],
  [
    'a pass',
    reading({ falloff: { spreadEv: 0.2 }, verdict: { even: 'yes' } }),
    THIRD,
    'Even enough: within 0.2 stop across the frame; you asked for 0.3.',
  ],
  [
    'a near miss is told in hundredths',
    reading({ falloff: { spreadEv: 0.33 }, verdict: { even: 'too-close-to-say' } }),
    THIRD,
    'Too close to say: within 0.33 stop across the frame; you asked for 0.3.',
  ],
  [
    'more than a stop, and only a lower bound',
    reading({ falloff: { spreadEv: 1.84, isLowerBound: true } }),
    THIRD,
    'At least 1.8 stops across the frame; you asked for 0.3.',
  ],
  [
    'a ratio from the centre',
    reading({ falloff: { fromCentreMax: 0.174 } }),
    { ...THIRD, measure: 'from-centre', limit: 0.1 },
    'Up to 17 % from the centre; you asked for 10 %.',
  ],
  [
    'a limit of one’s own that is no tenth',
    reading({ falloff: { spreadEv: 0.2 }, verdict: { even: 'yes' } }),
    { ...THIRD, limit: 0.25 },
    'Even enough: within 0.2 stop across the frame; you asked for 0.25.',
  ],
  [
    'the darkest against the mean',
    reading({ falloff: { minOverMean: 0.52 } }),
    { ...THIRD, measure: 'min-over-mean', limit: 0.6 },
    'The darkest has 52 % of the mean; you asked for 60 %.',
  ],
  [
    'nine points',
    reading({ falloff: { ninePointMinOverMax: 0.81 }, verdict: { even: 'yes' } }),
    { ...THIRD, measure: 'nine-point-min-max', limit: 0.75 },
    'Even enough: the darkest has 81 % of the brightest of nine points; you asked for 75 %.',
  ],
];

for (const [name, read, tolerance, sentence] of EVENNESS)
  test(`verdictSentence(reading) says how even: ${name}`, () => {
    expect(spaced(verdictSentence(read, tolerance).even)).toBe(sentence);
  });

const PLACES: readonly [string, Reading, string][] = [
  [
    'hottest and down, with the colour of the darker side',
    reading({}),
    'Hottest just above centre; the left edge is down and cooler, by 9 mired (about 290 K at 5500 K).',
  ],
  [
    'no colour where it is below its ±',
    reading({ tint: { plusMinusDeltaUv: 0.004 } }),
    'Hottest just above centre; the left edge is down.',
  ],
  [
    'a warmer darker side, by the two spots’ own colours and not by the ramp from end to end',
    reading({ gradient: { mired: -40 }, falloff: { darkestAt: { x: 0.97, y: 0.98 } } }),
    'Hottest just above centre; the bottom right corner is down and warmer, by 8 mired (about 240 K at 5500 K).',
  ],
  [
    'hottest in a corner',
    reading({ falloff: { brightestAt: { x: 0.03, y: 0.05 } } }),
    'Hottest in the top left corner; the left edge is down.',
  ],
  [
    'hottest at an edge',
    reading({ falloff: { brightestAt: { x: 0.99, y: 0.55 } } }),
    'Hottest at the right edge; the left edge is down and cooler, by 18 mired (about 590 K at 5500 K).',
  ],
  [
    'both ends at one place',
    reading({ falloff: { brightestAt: { x: 0.05, y: 0.05 }, darkestAt: { x: 0.03, y: 0.02 } } }),
    'Hottest in the top left corner; close by it is down.',
  ],
  [
    'a part of the frame: places within it, not within the frame',
    {
      ...reading({ falloff: { brightestAt: { x: 0.003, y: 0.01 }, darkestAt: { x: 0.0495, y: 0.19 } } }),
      region: { left: 0, top: 0, right: 0.05, bottom: 0.2 },
    },
    'In the part read, hottest in the top left corner; the bottom right corner is down and warmer, by 17 mired (about 470 K at 5500 K).',
  ],
  [
    'clipped: the hottest is not to be seen',
    reading({ falloff: { isLowerBound: true } }),
    'Hottest somewhere in the clipped part; the left edge is down.',
  ],
  [
    'clipped, and nothing else falls',
    reading({ falloff: { isLowerBound: true, spreadEv: 0.01, plusMinusEv: 0.02 } }),
    'Hottest somewhere in the clipped part.',
  ],
  [
    'a fall below its own ±',
    reading({ falloff: { spreadEv: 0.01, plusMinusEv: 0.02 } }),
    'No spot is hotter than another, as far as this frame can tell.',
  ],
];

for (const [name, read, sentence] of PLACES)
  test(`verdictSentence(reading) says where: ${name}`, () => {
    expect(spaced(verdictSentence(read, THIRD).where)).toBe(sentence);
  });

const COLOURS: readonly [string, Reading, string][] = [
  ['neutral', reading({}), 'Neutral enough: no cast that this frame can tell.'],
  [
    'a cast',
    reading({ cast: { mired: 12.3, duv: -0.0021, deltaUv: 0.0064 }, verdict: { neutral: 'no' } }),
    'Not neutral: 12 mired warmer (about 350 K at 5500 K) and more magenta by 0.0021 Duv than the white of the file.',
  ],
  [
    'neutral on the whole, but not all over',
    reading({
      cast: { mired: -7, duv: 0, deltaUv: 0.0039 },
      tint: { spreadDeltaUv: 0.0047 },
      verdict: { neutral: 'no' },
    }),
    'Not neutral all over: the colour differs by up to 0.0047 Δu′v′ from the mean; you asked for 0.004. On the whole: 7 mired cooler (about 220 K at 5500 K) than the white of the file.',
  ],
  [
    'neither on the whole nor all over',
    reading({
      cast: { mired: 20, duv: 0, deltaUv: 0.01 },
      tint: { spreadDeltaUv: 0.0047 },
      verdict: { neutral: 'no' },
    }),
    'Not neutral: 20 mired warmer (about 550 K at 5500 K) than the white of the file. Within the frame it differs by up to 0.0047 Δu′v′ from the mean; you asked for 0.004.',
  ],
  [
    'a colour too far out for mired',
    reading({ cast: { mired: null, duv: null, deltaUv: 0.12 }, verdict: { neutral: 'no' } }),
    'Not neutral: 0.1200 Δu′v′ from the white of the file.',
  ],
  [
    'a cast too close to say, with its ±',
    reading({
      cast: { mired: 11, duv: 0, deltaUv: 0.0049, plusMinusDeltaUv: 0.0004 },
      verdict: { neutral: 'too-close-to-say' },
    }),
    'Too close to say whether it is neutral: 11 mired warmer (about 310 K at 5500 K) than the white of the file, 0.0049 ± 0.0004 Δu′v′ in all; you asked for 0.005.',
  ],
  [
    'a tint too close to say, with its ±',
    reading({
      tint: { spreadDeltaUv: 0.0041, plusMinusDeltaUv: 0.0003 },
      verdict: { neutral: 'too-close-to-say' },
    }),
    'Too close to say whether it is neutral all over: the colour differs by up to 0.0041 ± 0.0003 Δu′v′ from the mean; you asked for 0.004. On the whole: no cast that this frame can tell.',
  ],
  [
    'a tint that misses by a hair is not printed like its limit',
    reading({ tint: { spreadDeltaUv: 0.00402, plusMinusDeltaUv: 0.00001 }, verdict: { neutral: 'no' } }),
    'Not neutral all over: the colour differs by up to 0.00402 Δu′v′ from the mean; you asked for 0.004. On the whole: no cast that this frame can tell.',
  ],
  [
    'clipped',
    reading({ verdict: { exposed: 'no' }, clipping: { highlightShare: 0.27 } }),
    'Neutral enough, as far as it is not clipped: no cast that this frame can tell.',
  ],
];

for (const [name, read, sentence] of COLOURS)
  test(`verdictSentence(reading) says how neutral: ${name}`, () => {
    expect(spaced(verdictSentence(read, THIRD).neutral)).toBe(sentence);
  });

test('verdictSentence(reading) speaks of the exposure only where it hides something', () => {
  expect(verdictSentence(reading({}), THIRD).exposed).toBeNull();
  const clipped = reading({ verdict: { exposed: 'no' }, clipping: { highlightShare: 0.034 } });
  expect(spaced(verdictSentence(clipped, THIRD).exposed)).toBe(
    'The exposure hides some of the light: 3 % of it is clipped.',
  );
});

test('verdictSentence(reading) gives the ± in hundredths of a stop, and none of a lower bound', () => {
  expect(verdictSentence(reading({ falloff: { isLowerBound: true } }), THIRD).plusMinus).toBeNull();
  expect(spaced(verdictSentence(reading({}), THIRD).plusMinus)).toBe('± 0.02 stop');
  expect(spaced(verdictSentence(reading({ falloff: { plusMinusEv: 0.002 } }), THIRD).plusMinus)).toBe(
    '± under 0.01 stop',
  );
});
