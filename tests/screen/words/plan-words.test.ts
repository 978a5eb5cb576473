import { expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import type { PlanInput } from '../../../src/plots/plan-input.ts';
import type { PlanSide } from '../../../src/plots/plan-projection.ts';
import { planView } from '../../../src/plots/plan-view.ts';
import { hiddenFrom, planNotes, planSummary, scaleWords } from '../../../src/screen/words/plan-words.ts';

const PLAIN = { bringsEv: null, toward: null, caution: null };
const KNOWN: Setup = {
  ...UNKNOWN_SETUP,
  frameWidthMm: 420,
  lampDistanceMm: [600],
  lampWidthMm: 180,
  cameraDistanceMm: 900,
};
const slide = (change: Partial<Move & { kind: 'slide-lamp' }> = {}): Move => ({
  ...PLAIN,
  kind: 'slide-lamp',
  lamp: 0,
  rightMm: null,
  downMm: null,
  rightFrameWidths: null,
  downFrameWidths: null,
  ...change,
});
const farther = (ratio: number | null, lamp = 0): Move => ({ ...PLAIN, kind: 'lamp-distance', lamp, ratio });

function of(change: Partial<PlanInput> = {}, side: PlanSide = 'above') {
  const input: PlanInput = {
    setup: KNOWN,
    aspect: 2 / 3,
    brighterDeg: 180,
    hottestAt: { x: 0.3, y: 0.5 },
    isHottestClipped: false,
    moves: [],
    foundLights: [],
    spill: null,
    ...change,
  };
  return { plan: planView(input, side, { width: 220, height: 400 }), input };
}

function notes(change: Partial<PlanInput>, side: PlanSide = 'above', unit: 'cm' | 'in' = 'cm'): string[] {
  const { plan, input } = of(change, side);
  return planNotes(plan, input, unit).map(({ text }) => text);
}

const NOTES: readonly [string, string[], string[]][] = [
  [
    'all that is known, and what is not',
    notes({}),
    [
      'camera, 90 cm',
      'the sheet: the frame, 42 cm wide; brighter to the left',
      'hottest here',
      'the light, 60 cm behind; place across not known',
    ],
  ],
  [
    'clipped: the tick is but one place of several',
    notes({ isHottestClipped: true }).slice(2, 3),
    ['clipped here; hottest somewhere in it'],
  ],
  [
    'nothing known',
    notes({ setup: UNKNOWN_SETUP, brighterDeg: null }),
    [
      'camera, distance not known',
      'the sheet: the frame, width not known',
      'hottest here',
      'the light, distance not known; place across not known',
    ],
  ],
  [
    'from the side: heights',
    notes({ brighterDeg: 270, moves: [slide({ toward: 90 })] }, 'side'),
    [
      'camera, 90 cm',
      'the sheet: the frame, 28 cm high; brighter at the top',
      'hottest here',
      'the light, 60 cm behind; height not known',
      '1. slide down',
    ],
  ],
  [
    'moves by length, in inches',
    notes({ brighterDeg: null, moves: [slide({ rightMm: -127 }), farther(1.27)] }, 'above', 'in').slice(4),
    ['1. slide 5 in left', '2. to 30\u00a0in'],
  ],
  [
    'moves by the frame’s width and by ratio alone',
    notes({
      setup: UNKNOWN_SETUP,
      moves: [slide({ rightFrameWidths: 0.25 }), farther(1.5)],
    }).slice(4),
    ['1. slide 25\u00a0% of the frame right', '2. 1.50 times the distance'],
  ],
  [
    'two lights at one distance and alike moves share their notes',
    notes({
      setup: { ...KNOWN, arrangement: 'two-lamps', lampDistanceMm: [900, 900] },
      moves: [farther(null), farther(null, 1)],
    }).slice(3),
    ['each light, 90 cm in front; place across not known', '1 and 2: farther'],
  ],
  [
    'two lights at two distances',
    notes({ setup: { ...KNOWN, arrangement: 'two-lamps', lampDistanceMm: [900, null] } }).slice(3),
    [
      'left light, 90 cm in front; place across not known',
      'right light, distance not known; place across not known',
    ],
  ],
  [
    'spill from its side',
    notes({ moves: [{ ...PLAIN, kind: 'block-stray', fromDeg: 200 }] }).slice(4),
    ['1. block the spill'],
  ],
];
for (const [title, said, expected] of NOTES)
  test(`planNotes: ${title}`, () => {
    expect(said).toEqual(expected);
  });

const BEHIND = ' Left and right are as the camera sees it, also behind the sheet.';
const SCALES: readonly [Setup, string][] = [
  [KNOWN, `To scale; what is dashed is not known.${BEHIND}`],
  [{ ...KNOWN, arrangement: 'panel', cameraDistanceMm: 600 }, 'To scale.'],
  [
    { ...KNOWN, arrangement: 'bounced', lampWidthMm: null },
    'To scale; what is dashed is not known. The light’s size is not known.',
  ],
  [
    { ...KNOWN, arrangement: 'panel', cameraDistanceMm: 5000 },
    'To scale. A line with two strokes through it is longer than drawn.',
  ],
  [
    UNKNOWN_SETUP,
    `Not to scale: enter the frame’s width and the light’s distance for a plan to scale.${BEHIND}`,
  ],
];
for (const [setup, sentence] of SCALES)
  test(`scaleWords says: ${sentence}`, () => {
    expect(scaleWords(of({ setup }).plan, setup)).toBe(sentence);
  });

test('hiddenFrom names the moves that have no arrow in this view, and only those of lights', () => {
  const moves = [slide({ toward: 270 }), farther(null), { ...PLAIN, kind: 'expose', stops: -1 } as const];
  const { plan, input } = of({ moves });
  expect(hiddenFrom(plan, input)).toBe('Move 1 is not seen from above.');
  const side = of({ moves }, 'side');
  expect(hiddenFrom(side.plan, side.input)).toBeNull();
  expect(planSummary(plan, input, 'cm')).toBe(
    'From above: camera, 90 cm; the sheet: the frame, 42 cm wide; brighter to the left; hottest here; ' +
      'the light, 60 cm behind; place across not known; 2. the light, farther. Move 1 is not seen from above.',
  );
  const two = { ...KNOWN, arrangement: 'two-lamps', lampDistanceMm: [900, 900] } as const;
  const both = of({ setup: two, moves: [slide({ toward: 180, lamp: 1 }), farther(null), farther(null, 1)] });
  expect(planSummary(both.plan, both.input, 'cm')).toMatch(
    /; 1\. the right light, slide left; 2\. the left light, farther; 3\. the right light, farther\.$/,
  );
});
