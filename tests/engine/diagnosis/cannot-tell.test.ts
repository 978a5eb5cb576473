import { describe, expect, test } from 'vitest';
import { cannotTell } from '../../../src/engine/diagnosis/cannot-tell.ts';
import type { RivalCauses } from '../../../src/engine/lamps/cause-shares.ts';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { diagnosisOf } from './measurement-of.ts';
import { about, setReadingOf, shareOf } from './set-reading-of.ts';

function told(
  set: Partial<SetReading> | null,
  arrangement: Setup['arrangement'] = 'behind-sheet',
  tolerance = DEFAULT_TOLERANCE,
) {
  const input = diagnosisOf({ ev: () => 0 }, { setup: { ...UNKNOWN_SETUP, arrangement }, tolerance });
  return cannotTell({ ...input, set: set && setReadingOf(set) });
}

const rivals = (causes: RivalCauses['causes'], ev = 0.42): RivalCauses => ({
  causes,
  ev,
  plusMinusEv: 0.05,
  confidence: 0.95,
});

describe('causes that look alike', () => {
  const SLIDE = 'lide the camera sideways by a third of the frame and shoot again';

  test.each([
    [
      ['lens-falloff', 'too-close'],
      'behind-sheet',
      `One frame can’t tell the lens’s falloff from the light’s: together they take 0.4 stop, give or take 0.05 stop. S${SLIDE}: what stays with the frame is the lens’s.`,
    ],
    [
      ['lens-falloff', 'hot-spot'],
      'behind-sheet',
      `One frame can’t tell the lens’s falloff from the hot spot of the sheet: together they take 0.4 stop, give or take 0.05 stop. S${SLIDE}: what stays with the frame is the lens’s.`,
    ],
    [
      ['lens-falloff', 'hot-spot'],
      'panel',
      `One frame can’t tell the lens’s falloff from the panel’s: together they take 0.4 stop, give or take 0.05 stop. S${SLIDE}: what stays with the frame is the lens’s.`,
    ],
    [
      ['too-close', 'hot-spot'],
      'behind-sheet',
      `One frame can’t tell a light that stands too close from a sheet that lets light straight through: together they take 0.4 stop, give or take 0.05 stop. Enter how far the light stands from the sheet, or s${SLIDE}: a hot spot moves over the sheet with the camera.`,
    ],
    [
      ['off-centre', 'aimed-off'],
      'bounced',
      `One frame can’t tell a light that stands to one side from one that is aimed to that side: together they take 0.4 stop, give or take 0.05 stop. Look where it points, or s${SLIDE}: more of its light shows.`,
    ],
  ] as const)(
    '%j of %s are told in one question and the frame that answers it',
    (causes, arrangement, says) => {
      expect(told({ rivals: [rivals(causes)] }, arrangement)).toEqual([
        { kind: 'cannot-tell', confidence: 0.95, ev: 0.42, mired: null, at: null, says, lengthsMm: null },
      ]);
      // whichever of them is named first
      const [one, other] = causes;
      expect(told({ rivals: [rivals([other, one])] }, arrangement)[0]!.says).toBe(says);
    },
  );

  test('are told only where they take a third of the tolerance together', () => {
    const pair = ['lens-falloff', 'too-close'] as const;
    expect(told({ rivals: [rivals(pair, 0.101)] })).toHaveLength(1);
    expect(told({ rivals: [rivals(pair, 0.099)] })).toEqual([]);
    const wide = { ...DEFAULT_TOLERANCE, limit: 1 };
    expect(told({ rivals: [rivals(pair, 0.3)] }, 'behind-sheet', wide)).toEqual([]);
  });

  test('the pair that takes most is told, and others that share no cause with it', () => {
    const found = told({
      rivals: [
        rivals(['lens-falloff', 'too-close'], 0.3),
        rivals(['too-close', 'hot-spot'], 0.5),
        rivals(['off-centre', 'aimed-off'], 0.4),
      ],
    });
    expect(found.map(({ ev }) => ev)).toEqual([0.5, 0.4]);
  });

  test('are not told of one frame, nor to be shot anew, where the frame that tells is in use', () => {
    const [found] = told({
      rivals: [rivals(['lens-falloff', 'too-close'])],
      secondFrames: [{ kind: 'shifted', leftOverEv: 0.003 }],
    });
    expect(found!.says).toBe(
      'These frames can’t tell the lens’s falloff from the light’s: together they take 0.4 stop, give or take 0.05 stop. Slide the camera to the other side as well.',
    );
  });
});

describe('light of the room in the lights’ own colour', () => {
  const doubt = (changes: Partial<SetReading> = {}, share = {}): Partial<SetReading> => ({
    spill: { share: about(0.06, 0.04), mired: about(4), fromDeg: 0 },
    causes: [shareOf('stray-light', { ev: 0.02, plusMinusEv: 0.15, confidence: 0.35, ...share })],
    ...changes,
  });

  test('is told with the frame that shows it', () => {
    expect(told(doubt())).toEqual([
      {
        kind: 'cannot-tell',
        confidence: 0.35,
        ev: 0.02,
        mired: null,
        at: null,
        says: 'Light of the room in the lights’ own colour can’t be told from theirs in one frame. Shoot one with the lights off, the room and the exposure as they were: it shows what the room adds.',
        lengthsMm: null,
      },
    ]);
    expect(told(doubt({}, { ev: -0.04 }))[0]!.ev).toBe(0);
  });

  test.each([
    ['where its colour or a frame with the lights off tells it', doubt({ isSpillTold: true })],
    ['where it takes too little', doubt({}, { plusMinusEv: 0.07 })],
    [
      'where it is hardly there',
      doubt({ spill: { share: about(0.02, 0.015), mired: about(4), fromDeg: 0 } }),
    ],
    ['where it is all but ruled out', doubt({}, { confidence: 0.15 })],
    ['where no share of it was worked out', doubt({ causes: [] })],
  ] as const)('is not told %s', (_, set) => {
    expect(told(set)).toEqual([]);
  });

  test('stands beside causes that look alike', () => {
    const both = told({ ...doubt(), rivals: [rivals(['lens-falloff', 'too-close'])] });
    expect(both.map(({ says }) => says.slice(0, 20))).toEqual([
      'One frame can’t tell',
      'Light of the room in',
    ]);
  });
});

test('nothing is asked where no set was fitted', () => {
  expect(told(null)).toEqual([]);
});
