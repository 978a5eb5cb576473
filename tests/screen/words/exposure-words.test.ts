import { describe, expect, test } from 'vitest';
import type { BackgroundLevel } from '../../../src/engine/exposure/background-level.ts';
import {
  BLANK_GOAL,
  type ExposureChange,
  type ExposureGoal,
} from '../../../src/engine/exposure/exposure-goal.ts';
import type { ExposureWay } from '../../../src/engine/exposure/ways-to-expose.ts';
import type { Move } from '../../../src/engine/moves/move.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import {
  changeSentence,
  clipsWords,
  levelFigures,
  levelSentences,
  parsePower,
  powerWords,
  thirdsWords,
  wayWords,
} from '../../../src/screen/words/exposure-words.ts';
import { moveWords } from '../../../src/screen/words/move-words.ts';

const spaced = (words: string) => words.replaceAll('\u00a0', ' ');

const LEVEL: BackgroundLevel = {
  ...{ meanEv: -1.25, meanPlusMinusEv: 0.01, brightestEv: -0.92, brightestPlusMinusEv: 0.02 },
  ...{ darkestEv: -1.5, darkestPlusMinusEv: 0.02, meanAtLeastEv: -1.25 },
  ...{ firstChannel: 'green', firstEv: -0.91, overEv: null, clippedShare: 0, isAssumed: false },
};
const CLIPPED: BackgroundLevel = {
  ...LEVEL,
  ...{ meanEv: null, meanPlusMinusEv: null, brightestEv: null, brightestPlusMinusEv: null },
  ...{ firstEv: null, overEv: 0.42, clippedShare: 0.031 },
};

describe('levelSentences', () => {
  test.each<[string, BackgroundLevel, string]>([
    [
      'unclipped',
      LEVEL,
      'The background’s hottest part stands 0.9 stop ± 0.02 below clipping, its mean 1.3 stops ± 0.01, its darkest part 1.5 stops ± 0.02.',
    ],
    [
      'of a colour',
      { ...LEVEL, firstChannel: 'red', firstEv: -0.4 },
      'The background’s hottest part stands 0.9 stop ± 0.02 below clipping (its red 0.4 stop), its mean 1.3 stops ± 0.01, its darkest part 1.5 stops ± 0.02.',
    ],
    [
      'clipped',
      CLIPPED,
      '3 % of the background is clipped: its hottest part stands over that level by more than can be seen, drawn on from the light beside it to about 0.4 stop. Its darkest part stands 1.5 stops ± 0.02 below.',
    ],
  ])('%s', (_what, level, sentence) => expect(spaced(levelSentences(level)[0]!)).toBe(sentence));

  test('says where stops are stops of light by assumption alone', () => {
    expect(levelSentences(LEVEL)).toHaveLength(1);
    expect(levelSentences({ ...LEVEL, isAssumed: true })[1]).toContain('only by assumption');
  });

  test.each<[BackgroundLevel, [string, string][]]>([
    [LEVEL, [['Stops below clipping', 'hottest 0.92 ± 0.02, mean 1.25 ± 0.01, darkest 1.50 ± 0.02']]],
    [
      { ...LEVEL, isAssumed: true, firstChannel: 'red', firstEv: -0.4 },
      [
        [
          'Stops below clipping, by assumption',
          'hottest 0.92 ± 0.02, its red 0.40, mean 1.25 ± 0.01, darkest 1.50 ± 0.02',
        ],
      ],
    ],
    [
      CLIPPED,
      [
        ['Stops below clipping', 'hottest clipped, darkest 1.50 ± 0.02'],
        ['Clipped', '3.1 %'],
      ],
    ],
  ])('as figures of the record', (level, figures) => {
    expect(levelFigures(level).map((figure) => figure.map(spaced))).toEqual(figures);
  });
});

const CHANGE: ExposureChange = {
  ...{ stops: -0.72, plusMinusEv: 0.02, isEstimate: false, clipsByEv: null, isLightAlone: false },
};
const CODE: ExposureGoal = { kind: 'code', code: 240 };
const OVER: ExposureGoal = { kind: 'over-subject', stops: 1, subject: { kind: 'code', code: null } };

test.each<[Partial<ExposureChange>, ExposureGoal, string]>([
  [{}, BLANK_GOAL, 'Expose 0.7 stop less, so that the hottest part stands a stop below clipping.'],
  [
    { stops: 1.4 },
    { kind: 'below-clipping', stops: 1 / 3 },
    'Expose 1.4 stops more, so that the hottest part stands 0.3 stop below clipping.',
  ],
  [
    { isEstimate: true },
    BLANK_GOAL,
    'Expose 0.7 stop less, so that the hottest part stands a stop below clipping. By how much is an estimate: the clipped part is drawn on from the light beside it.',
  ],
  [{}, CODE, 'Expose 0.7 stop less.'],
  [{ stops: 0.12 }, CODE, 'It is there, but for 0.12 stop: nothing to change.'],
  [
    { isLightAlone: true },
    { kind: 'over-subject', stops: 1, subject: { kind: 'code', code: 90 } },
    'Turn the background’s light down by 0.7 stop: what is changed in the camera changes the subject alike.',
  ],
  [
    { stops: null },
    OVER,
    'How far that is depends on the subject: enter its code value in a frame exposed like this one, or what a meter says.',
  ],
  [
    { stops: null },
    CODE,
    'Part of it is clipped, so its mean can’t be told: bring its hottest part below clipping first.',
  ],
])('changeSentence(%j, %j)', (change, goal, sentence) => {
  expect(spaced(changeSentence({ ...CHANGE, ...change }, goal))).toBe(sentence);
});

test('the move to expose and the exposure of a blank frame are one sentence', () => {
  for (const stops of [-1.6, -0.72, 2.3]) {
    const move: Move = { kind: 'expose', stops, bringsEv: null, toward: null, caution: null };
    expect(moveWords(move, UNKNOWN_SETUP, 'cm').text).toBe(changeSentence({ ...CHANGE, stops }, BLANK_GOAL));
  }
});

test('clipsWords says what then clips', () => {
  expect(clipsWords(CHANGE)).toBeNull();
  expect(spaced(clipsWords({ ...CHANGE, clipsByEv: 0.4 })!)).toBe(
    'The hottest part would then lie 0.4 stop over clipping.',
  );
});

const WAY: ExposureWay = {
  ...{ kind: 'shutter', from: 1 / 125, to: 1 / 160, stops: -1 / 3, leavesEv: 0.01, caution: null },
};
test.each<[Partial<ExposureWay>, string]>([
  [{}, 'Shutter 1/125 s to 1/160 s.'],
  [{ from: 1 / 4, to: 0.3 }, 'Shutter 1/4 s to 0.3 s.'],
  [{ kind: 'aperture', from: 8, to: 9 }, 'Aperture f/8 to f/9.'],
  [
    { kind: 'aperture', from: 5.6, to: 4.5, leavesEv: -0.12 },
    'Aperture f/5.6 to f/4.5, which leaves it 0.1 stop too bright.',
  ],
  [{ kind: 'iso', from: 100, to: 80, leavesEv: 0.09 }, 'ISO 100 to 80, which leaves it 0.1 stop too dark.'],
  [{ kind: 'power', from: 1 / 4, to: 2 ** (-8 / 3) }, 'Light 1/4 to 1/8 + 0.3.'],
  [{ kind: 'power', from: null, to: null, stops: -2 / 3 }, 'Light: power down by 2/3 stop.'],
  [{ caution: 'shutter-does-nothing' }, 'Shutter 1/125 s to 1/160 s; with a flash this does nothing.'],
])('wayWords(%j)', (change, words) => expect(spaced(wayWords({ ...WAY, ...change }))).toBe(words));

test.each([
  ['1/4', 1 / 4, '1/4'],
  ['1/8 + 0.3', 2 ** (-8 / 3), '1/8 + 0.3'],
  ['1/8+.7', 2 ** (-7 / 3), '1/8 + 0.7'],
  ['full', 1, 'full power'],
  ['1/1', 1, 'full power'],
  ['Full power', 1, 'full power'],
])('parsePower(%j) is %d of full power, which reads %j', (text, share, words) => {
  expect(parsePower(text)).toBeCloseTo(share, 12);
  expect(spaced(powerWords(share))).toBe(words);
});

test.each(['', 'half', '1/4 + 0.5', 'full + 0.3', '1/1000', '2'])('parsePower(%j) is none', (text) =>
  expect(parsePower(text)).toBeNull(),
);

test.each([
  [1 / 3, '1/3 stop'],
  [1, '1 stop'],
  [5 / 3, '1 2/3 stops'],
])('thirdsWords(%d) is %j', (by, words) => expect(spaced(thirdsWords(by))).toBe(words));
