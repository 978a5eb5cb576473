import { expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import type { Finding, Reading } from '../../../src/engine/reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import {
  cautionsInOrder,
  type MovesFoundBy,
  predictionWords,
  wordsBesideMoves,
} from '../../../src/screen/words/beside-moves.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const spaced = (text: string) => text.replaceAll('\u00a0', ' ');
const PLAIN = { bringsEv: null, toward: null, caution: null };
const SLIDE: Move = {
  ...PLAIN,
  kind: 'slide-lamp',
  lamp: 0,
  rightMm: null,
  downMm: null,
  rightFrameWidths: null,
  downFrameWidths: null,
};
const TIGHTER: Move = { ...PLAIN, kind: 'frame-tighter', left: 0.1, top: 0, right: 1, bottom: 1 };
const BALANCE: Move = { ...PLAIN, kind: 'white-balance', miredShift: -12, duvShift: 0 };
const SPILL: Move = { ...PLAIN, kind: 'block-stray', fromDeg: 0 };
const NOT_BLANK: Finding = {
  kind: 'not-blank',
  confidence: 1,
  ev: null,
  mired: null,
  at: { x: 0.5, y: 0.5 },
  says: 'Something is in the frame.',
  lengthsMm: null,
};
const UNPLANNED: MovesFoundBy = { isPlanned: false, settling: null };
const LEAVE = 'Nothing: leave it as it is and shoot.';
const UNSURE = 'No move is sure enough to be worth making.';
const CLEAR = 'Take out what stands in the frame, and shoot it again.';
const SHEET = 'No move mends the tint: turn or change the sheet, or take it out with the profile.';
const PASS = { even: 'yes', neutral: 'yes', exposed: 'yes' } as const;

const ROWS: readonly (readonly [Partial<Reading>, Setup['arrangement'], readonly string[]])[] = [
  [{ verdict: PASS }, 'behind-sheet', [LEAVE]],
  [{ verdict: PASS, findings: [NOT_BLANK] }, 'behind-sheet', [CLEAR]],
  [{ verdict: { ...PASS, even: 'no' }, findings: [NOT_BLANK], moves: [SLIDE] }, 'behind-sheet', [CLEAR]],
  [{ verdict: { ...PASS, neutral: 'no' }, findings: [NOT_BLANK] }, 'behind-sheet', [CLEAR]],
  [{ verdict: { ...PASS, even: 'no' } }, 'behind-sheet', [UNSURE]],
  [{ verdict: { ...PASS, neutral: 'too-close-to-say' } }, 'behind-sheet', [UNSURE]],
  [{ verdict: { ...PASS, even: 'no' }, moves: [SLIDE] }, 'behind-sheet', []],
  [{ verdict: { ...PASS, neutral: 'no' } }, 'behind-sheet', [SHEET]],
  [{ verdict: { ...PASS, even: 'no', neutral: 'no' } }, 'behind-sheet', [UNSURE, SHEET]],
  [{ verdict: { ...PASS, even: 'no', neutral: 'no' }, moves: [SLIDE, TIGHTER] }, 'behind-sheet', [SHEET]],
  [{ verdict: { ...PASS, neutral: 'no' }, moves: [BALANCE] }, 'behind-sheet', []],
  [{ verdict: { ...PASS, neutral: 'no' }, moves: [SPILL] }, 'behind-sheet', []],
  [
    {
      verdict: { even: 'no', neutral: 'no', exposed: 'no' },
      clipping: { highlightShare: 0.2, shadowShare: 0 },
    },
    'behind-sheet',
    [UNSURE],
  ],
  [
    { verdict: { ...PASS, neutral: 'no' } },
    'two-lamps',
    ['No move mends the tint: bring both lights to one colour, or take it out with the profile.'],
  ],
  [
    { verdict: { ...PASS, neutral: 'no' } },
    'panel',
    ['No move mends the tint: turn or change the panel, or take it out with the profile.'],
  ],
  [
    { verdict: { ...PASS, neutral: 'no' }, cast: { ...readingFixture().cast, mired: null } },
    'bounced',
    [
      'No move mends the colour, which is far from white: bounce off another part of the wall, or take it out with the profile.',
    ],
  ],
];
test.each(ROWS)('wordsBesideMoves(%j) of %s', (change, arrangement, says) => {
  const reading = readingFixture({ columns: 2, rows: 2 }, change);
  expect(wordsBesideMoves(reading, { ...UNKNOWN_SETUP, arrangement }, UNPLANNED)).toEqual(says);
});

const LEFT: readonly (readonly [Partial<Reading>, Partial<MovesFoundBy>, string | null])[] = [
  [{}, {}, 'The profile takes out the 0.6 stop that is left.'],
  [
    { verdict: { ...PASS, even: 'too-close-to-say' } },
    {},
    'The profile takes out the 0.6 stop that is left.',
  ],
  [{ moves: [TIGHTER] }, {}, 'The profile takes out the 0.6 stop that is left, unless you frame tighter.'],
  [{ moves: [BALANCE] }, {}, 'The profile takes out the 0.6 stop that is left.'],
  // even enough; a cure is advised; the exposure comes first; what clips may hide more
  [{ verdict: PASS }, {}, null],
  [{ moves: [SLIDE] }, {}, null],
  [{ moves: [SPILL] }, {}, null],
  [{ moves: [{ ...PLAIN, kind: 'expose', stops: 1 }] }, {}, null],
  [{ falloff: { ...readingFixture().falloff, isLowerBound: true } }, {}, null],
  [{ findings: [NOT_BLANK] }, {}, null],
  // no set is believed; another frame is asked for first
  [{}, { isPlanned: false }, null],
  [{}, { settling: 'shifted' }, null],
];
test.each(LEFT)('the light of %j is left as it is, found by %j: %s', (change, foundBy, says) => {
  const verdict = { ...PASS, even: 'no' } as const;
  const reading = readingFixture(
    { columns: 2, rows: 2, ev: (x) => -0.6 * Number(x > 0.5) },
    { verdict, ...change },
  );
  const planned = { isPlanned: true, settling: null, ...foundBy };
  const said = wordsBesideMoves(reading, UNKNOWN_SETUP, planned).map(spaced);
  const leave = 'Leave the light where it is: no move promises anything to speak of beyond its own ±.';
  expect(said.filter((words) => words.startsWith('Leave'))).toEqual(
    says === null ? [] : [`${leave} ${says}`],
  );
  if (says !== null) expect(said).not.toContain(UNSURE);
});

test('a frame that was read alone, as it does not go with what was answered, is said to be', () => {
  for (const verdict of [PASS, { ...PASS, even: 'no' } as const]) {
    const reading = readingFixture({}, { verdict });
    const alone =
      /does not go with the takes .* answered as done, .*\. Answer the next moves as they are really made/;
    const said = (isReadAlone: boolean) =>
      wordsBesideMoves(reading, UNKNOWN_SETUP, { ...UNPLANNED, isReadAlone }).filter((words) =>
        alone.test(words),
      );
    expect(said(true)).toHaveLength(1);
    expect(said(false)).toEqual([]);
  }
});

test('two lights are left where they are; a colour that no move mends is told besides', () => {
  const reading = readingFixture({}, { verdict: { ...PASS, even: 'no', neutral: 'no' } });
  const setup = { ...UNKNOWN_SETUP, arrangement: 'two-lamps' } as const;
  expect(wordsBesideMoves(reading, setup, { isPlanned: true, settling: null })).toEqual([
    expect.stringMatching(/^Leave the lights where they are: /),
    'No move mends the tint: bring both lights to one colour, or take it out with the profile.',
  ]);
});

test('cautionsInOrder(moves) gives each caution once and recalls it after', () => {
  const cautious = (caution: string | null): Move => ({ ...SLIDE, caution });
  expect(cautionsInOrder(['Weight it.', null, 'Weight it.', 'Heat.'].map(cautious))).toEqual([
    'Weight it.',
    null,
    'The caution of move 1 holds here too.',
    'Heat.',
  ]);
});

test('cautionsInOrder(moves) gives no sentence twice, and leaves none out', () => {
  const cautions = [
    'Weight the flag. Let it cool. Rules first.',
    'Weight the stand. Let it cool. Rules first.',
    'Let it cool. Rules first.',
    'Weight the stand. Rules first.',
  ];
  expect(cautionsInOrder(cautions.map((caution): Move => ({ ...SLIDE, caution })))).toEqual([
    cautions[0],
    'Weight the stand. The caution of move 1 holds here too.',
    'The caution of move 1 holds here too.',
    'The caution of move 2 holds here too.',
  ]);
});

test('predictionWords(reading) says what all moves together are to bring, with its ±', () => {
  const predicted = { spreadEv: 0.28, plusMinusEv: 0.11, tintDeltaUv: 0 };
  const foretold = (change: Partial<Reading>, tolerance = DEFAULT_TOLERANCE) =>
    predictionWords(readingFixture({ columns: 2, rows: 2 }, { predicted, ...change }), tolerance);
  expect(spaced(foretold({ moves: [SLIDE, SLIDE] })!)).toBe(
    'With all of these made, expect 0.3 stop across the frame, ± 0.11 stop.',
  );
  expect(spaced(foretold({ moves: [SLIDE, TIGHTER] })!)).toMatch(/^With move 1 made/);
  expect(spaced(foretold({ moves: [SLIDE] })!)).toMatch(/^With this move made/);
  expect(spaced(foretold({ moves: [SPILL, SLIDE, TIGHTER] })!)).toMatch(/^With moves 1 and 2 made/);
  expect(spaced(foretold({ moves: [SPILL, SLIDE, SLIDE, TIGHTER] })!)).toMatch(/^With moves 1, 2 and 3 made/);
  expect(foretold({ moves: [] })).toBeNull();
  expect(foretold({ moves: [SLIDE], predicted: null })).toBeNull();
  // what moves leave over the limit is the profile's
  const over = { moves: [SLIDE], predicted: { ...predicted, spreadEv: 0.42 } };
  expect(spaced(foretold(over)!)).toMatch(
    /± 0\.11 stop\. That is over what you asked for: the profile takes out the rest\.$/,
  );
  expect(foretold(over, { ...DEFAULT_TOLERANCE, measure: 'min-over-mean', limit: 0.4 })).not.toMatch(
    /profile/,
  );
});
