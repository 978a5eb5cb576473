import { expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import type { Reading } from '../../../src/engine/reading.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import {
  bestTakeWords,
  deletedWords,
  foretoldWords,
  limitWords,
  shotWords,
  sinceWords,
  takeFigure,
  takesSummary,
} from '../../../src/screen/words/take-words.ts';
import type { Take } from '../../../src/takes/take.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';
import { heldTake } from '../../takes/held-take.ts';

const spaced = (text: string | null) => text?.replaceAll('\u00a0', ' ') ?? null;
const RATIO: Tolerance = { ...DEFAULT_TOLERANCE, measure: 'from-centre', limit: 0.1 };
const MOVE: Move = { kind: 'add-diffusion', bringsEv: null, toward: null, caution: null };

function take(
  spreadEv: number,
  plusMinusEv: number,
  change: Partial<Reading['falloff']> = {},
  rest: Partial<Reading> = {},
  done: Take['done'] = [],
): Take {
  const plain = readingFixture({ columns: 2, rows: 2 });
  const reading = { ...plain, ...rest, falloff: { ...plain.falloff, spreadEv, plusMinusEv, ...change } };
  return { id: '', note: '', done, reading };
}

const BEST: readonly [string, readonly Take[], Tolerance, string | null][] = [
  ['one take is not compared', [take(1, 0.1)], DEFAULT_TOLERANCE, null],
  [
    'the lowest wins',
    [take(1.2, 0.02), take(0.4, 0.02), take(0.6, 0.02)],
    DEFAULT_TOLERANCE,
    'Take 2 is the best: 0.4 stop ± 0.02.',
  ],
  [
    'within their ± they tie',
    [take(0.42, 0.02), take(0.4, 0.02), take(0.9, 0.02)],
    DEFAULT_TOLERANCE,
    'Takes 1 and 2 are the best, too close to tell apart: 0.4 stop ± 0.02.',
  ],
  [
    'what is clipped is not called the best',
    [take(0.1, 0.02, { isLowerBound: true }), take(0.8, 0.02), take(0.9, 0.02)],
    DEFAULT_TOLERANCE,
    'Take 2 is the best: 0.8 stop ± 0.02.',
  ],
  [
    'all clipped',
    [take(0.1, 0.02, { isLowerBound: true }), take(0.2, 0.02, { isLowerBound: true })],
    DEFAULT_TOLERANCE,
    'Every take is clipped: none can be called the best.',
  ],
  [
    'a miss by a hair is not printed like the limit',
    [take(0.9, 0.02), take(0.31, 0.005)],
    DEFAULT_TOLERANCE,
    'Take 2 is the best: 0.31 stop ± 0.01.',
  ],
  [
    'by its own measure',
    [take(0.5, 0.01, { fromCentreMax: 0.3 }), take(0.6, 0.01, { fromCentreMax: 0.08 })],
    RATIO,
    'Take 2 is the best: 8 % ± 0.7 %.',
  ],
];
test('bestTakeWords names takes by the numbers they have kept, and of many that tie only the first', () => {
  const ids = (...numbers: number[]) => numbers.map((n) => ({ ...take(0.4, 0.02), id: `take-${n}` }));
  expect(bestTakeWords(ids(2, 5), DEFAULT_TOLERANCE)).toContain('Takes 2 and 5 are');
  const many = ids(...Array.from({ length: 500 }, (_, i) => i + 1));
  expect(bestTakeWords(many, DEFAULT_TOLERANCE)).toContain(
    'Takes 1, 2, 3, 4, 5, 6 and 494 more are the best',
  );
});

test('shotWords(shotAt, now) gives the time, and the day where it is another', () => {
  const at = (day: number, hour: number) => new Date(2026, 2, day, hour, 5).getTime();
  expect(shotWords(at(1, 9), at(1, 17))).toBe('09:05');
  expect(shotWords(at(1, 9), at(2, 8))).toBe('1 March, 09:05');
});

test('deletedWords(deleted) says for which take the moves before it count', () => {
  const deleted = (done: Move[] | null, next: Move[] | null | undefined) =>
    deletedWords({
      take: { ...heldTake('take-3'), done },
      next: next === undefined ? null : { ...heldTake('take-5'), done: next },
    });
  expect(deleted([MOVE], undefined)).toBe(
    'Take 3 was deleted. The move made before it counts for the next take.',
  );
  expect(deleted([MOVE, MOVE], [])).toBe('Take 3 was deleted. The 2 moves made before it count for take 5.');
  expect(deleted([], [])).toBe('Take 3 was deleted.');
  expect(deleted([MOVE], null)).toBe('Take 3 was deleted.'); // another set-up follows
  expect(deleted(null, undefined)).toBe('Take 3 was deleted.');
});

for (const [title, takes, tolerance, sentence] of BEST)
  test(`bestTakeWords: ${title}`, () => {
    const numbered = takes.map((each, i) => ({ ...each, id: `take-${i + 1}` }));
    expect(spaced(bestTakeWords(numbered, tolerance))).toBe(sentence);
  });

test('sinceWords(take) says what went before it', () => {
  const said = [null, [], [MOVE], [MOVE, MOVE]].map((done) => sinceWords(take(1, 0, {}, {}, done), false));
  expect(said).toEqual(['new set-up', 'nothing moved', 'after one move', 'after 2 moves']);
  expect(sinceWords(take(1, 0, {}, {}, null), true)).toBe('first take');
});

test('takeFigure(falloff) says at least where clipping hides some', () => {
  const { reading } = take(1.25, 0.03, { isLowerBound: true });
  expect(spaced(takeFigure(reading.falloff, DEFAULT_TOLERANCE))).toBe('at least 1.3 stops');
});

const SLID: Move = {
  ...{ kind: 'slide-lamp', lamp: 0, rightMm: 100, downMm: 0, rightFrameWidths: 0.2, downFrameWidths: 0 },
  ...{ bringsEv: 0.3, toward: null, caution: 'Weight it.' },
};
const PART: Move = {
  ...{ kind: 'frame-tighter', left: 0.1, top: 0, right: 1, bottom: 1 },
  ...{ bringsEv: 0.5, toward: null, caution: null },
};

test('foretoldWords holds the prediction beside what came, and says where it does not quite apply', () => {
  const predicted = { spreadEv: 0.4, plusMinusEv: 0.1, tintDeltaUv: 0 };
  const foretold = { predicted, moves: [MOVE, SLID, PART] };
  const after = (done: Take['done'], spreadEv = 0.5, change: Partial<Reading['falloff']> = {}) =>
    spaced(foretoldWords({ ...take(spreadEv, 0.02, change, {}, done), foretold }, DEFAULT_TOLERANCE));
  expect(after([MOVE, SLID])).toBe('foretold 0.4 stop ± 0.10, came out 0.5');
  expect(after([MOVE, SLID], 0.28)).toBe('foretold 0.4 stop ± 0.10, came out 0.3: beyond that ±');
  expect(after([MOVE, SLID], 0.71)).toBe('foretold 0.4 stop ± 0.10, came out 0.7: beyond that ±');
  expect(after([MOVE, SLID], 0.45, { isLowerBound: true })).toBe(
    'foretold 0.4 stop ± 0.10, came out at least 0.5',
  );
  expect(after([MOVE])).toBe('foretold 0.4 stop ± 0.10, had all moves been made');
  expect(after([MOVE, { ...SLID, rightMm: 80 } as Move])).toBe(
    'foretold 0.4 stop ± 0.10, had they been made as advised',
  );
  expect(after([MOVE, { ...SLID, rightMm: 104, bringsEv: null } as Move])).toMatch(/came out 0\.5$/);
  expect(after([MOVE, SLID, PART])).toBe('foretold 0.4 stop ± 0.10, had the frame stayed');
  expect(after(null)).toBeNull();
  expect(foretoldWords({ ...take(0.5, 0.02), foretold: null }, DEFAULT_TOLERANCE)).toBeNull();
  const nothing = { ...foretold, predicted: null };
  expect(foretoldWords({ ...take(0.5, 0.02), foretold: nothing }, DEFAULT_TOLERANCE)).toBeNull();
  expect(foretoldWords({ ...take(0.5, 0.02, {}, {}, [MOVE, SLID]), foretold }, RATIO)).toBeNull();
});

test('takesSummary(takes) tells the line to those who do not see it', () => {
  expect(spaced(takesSummary([take(0.28, 0.1), take(0.32, 0.01)], DEFAULT_TOLERANCE))).toBe(
    'From take to take, stops across the frame: 0.3, 0.32; limit 0.3.',
  );
  expect(spaced(takesSummary([take(1.2, 0.1), take(0.4, 0.1)], DEFAULT_TOLERANCE))).toBe(
    'From take to take, stops across the frame: 1.2, 0.4; limit 0.3.',
  );
  expect(spaced(limitWords(RATIO))).toBe('limit 10 %');
  expect(spaced(limitWords({ ...RATIO, limit: 0.125 }))).toBe('limit 12.5 %');
  expect(spaced(limitWords({ ...RATIO, measure: 'min-over-mean', limit: 0.875 }))).toBe('limit 12.5 %');
});
