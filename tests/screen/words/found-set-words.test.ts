import { expect, test } from 'vitest';
import type { FoundLight } from '../../../src/engine/lamps/set-reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import type { FoundSpill, PlanInput } from '../../../src/plots/plan-input.ts';
import type { PlanSide } from '../../../src/plots/plan-projection.ts';
import { planView } from '../../../src/plots/plan-view.ts';
import {
  foundLightNote,
  foundLightSentence,
  hiddenSpill,
  spillNote,
  spillSentence,
} from '../../../src/screen/words/found-set-words.ts';
import { planNotes, planSummary, scaleWords } from '../../../src/screen/words/plan-words.ts';
import { foundLight } from '../../plots/found-sets.ts';

const SHEET: Setup = { ...UNKNOWN_SETUP, frameWidthMm: 420, lampDistanceMm: [600] };
const WALL: Setup = { ...SHEET, arrangement: 'bounced' };

/** Words with the spaces that keep a figure together as plain ones. */
const plain = (words: string) => words.replaceAll('\u00a0', ' ');
const at = (value: number, plusMinus: number) => ({ value, plusMinus });
const at60 = { distance: at(1.42, 0.28), right: at(-0.25, 0.044), aimRight: -0.24 };

const LIGHTS: readonly [
  title: string,
  change: Partial<FoundLight>,
  setup: Setup,
  seenFrom: PlanSide,
  unit: 'cm' | 'in',
  note: string,
  sentence: string,
][] = [
  [
    'left of the middle, behind a sheet',
    at60,
    SHEET,
    'above',
    'cm',
    '11 ± 2 cm left, 60 ± 12 cm behind',
    'stands about 11 cm left of the middle, give or take 2 cm, and 60 cm behind the sheet, give or take 12 cm; it points about 10 cm left of the middle',
  ],
  [
    'the same in inches',
    at60,
    SHEET,
    'above',
    'in',
    '4.1 ± 0.7 in left, 23 ± 5 in behind',
    'stands about 4.1 in left of the middle, give or take 0.7 in, and 23 in behind the sheet, give or take 5 in; it points about 4.0 in left of the middle',
  ],
  [
    'its height, seen from the side',
    { down: at(-0.06, 0.02), aimDown: 0, distance: at(1.42, 0.28) },
    SHEET,
    'side',
    'cm',
    '2.5 ± 0.8 cm above, 60 ± 12 cm behind',
    'stands about 2.5 cm above the middle, give or take 0.8 cm, and 60 cm behind the sheet, give or take 12 cm; it points at the middle',
  ],
  [
    'below the middle, in front of a wall',
    { down: at(0.2, 0.05), aimDown: 0.1, distance: at(1.42, 0.1) },
    WALL,
    'side',
    'cm',
    '8 ± 2 cm below, 60 ± 4 cm in front',
    'stands about 8 cm below the middle, give or take 2 cm, and 60 cm in front of the wall, give or take 4 cm; it points about 4 cm below the middle',
  ],
  [
    'nearer the middle than can be told',
    { right: at(0.004, 0.1), aimRight: -0.004, distance: at(1.42, 0.28) },
    SHEET,
    'above',
    'cm',
    'in the middle ± 4 cm, 60 ± 12 cm behind',
    'stands in the middle, give or take 4 cm, and 60 cm behind the sheet, give or take 12 cm; it points at the middle',
  ],
  [
    'a ± of next to nothing',
    { right: at(0.1, 0.00001), aimRight: 0, distance: at(1.42, 0.00001) },
    SHEET,
    'above',
    'cm',
    '4.2 ± under 0.1 cm right, 59.6 ± under 0.1 cm behind, entered as 60 cm',
    'stands about 4.2 cm right of the middle, give or take under 0.1 cm, and 59.6 cm behind the sheet, give or take under 0.1 cm (entered as 60 cm); it points at the middle',
  ],
  [
    'not where it was entered',
    { ...at60, distance: at(1, 0.2) },
    SHEET,
    'above',
    'cm',
    '11 ± 2 cm left, 42 ± 8 cm behind, entered as 60 cm',
    'stands about 11 cm left of the middle, give or take 2 cm, and 42 cm behind the sheet, give or take 8 cm (entered as 60 cm); it points about 10 cm left of the middle',
  ],
  [
    'width of the frame and distance unknown',
    { ...at60, distance: at(1.2, 0.9) },
    UNKNOWN_SETUP,
    'above',
    'cm',
    '0.25 ± 0.04 frame left, distance not known',
    'stands about 0.25 frame left of the middle, give or take 0.04 frame, and at a distance not known; it points about 0.24 frame left of the middle',
  ],
  [
    'a distance entered that the frame does not tell',
    { ...at60, distance: at(1.2, 0.9) },
    { ...SHEET, frameWidthMm: null },
    'above',
    'cm',
    '0.25 ± 0.04 frame left, 60 cm behind',
    'stands about 0.25 frame left of the middle, give or take 0.04 frame, and 60 cm behind the sheet as entered; it points about 0.24 frame left of the middle',
  ],
  [
    'a distance found in widths of the frame',
    { ...at60, distance: at(1.2, 0.2) },
    UNKNOWN_SETUP,
    'above',
    'cm',
    '0.25 ± 0.04 frame left, 1.20 ± 0.20 frame behind',
    'stands about 0.25 frame left of the middle, give or take 0.04 frame, and 1.20 frame behind the sheet, give or take 0.20 frame; it points about 0.24 frame left of the middle',
  ],
];
for (const [title, change, setup, seenFrom, unit, note, sentence] of LIGHTS)
  test(`a light found: ${title}`, () => {
    const measure = { setup, seenFrom, unit };
    expect(plain(foundLightNote(foundLight(change), 0, measure))).toBe(note);
    expect(plain(foundLightSentence(foundLight(change), 0, measure))).toBe(sentence);
  });

const spill = (fromDeg: number | null, mired = at(-56, 11)): FoundSpill => ({
  share: at(0.124, 0.027),
  mired,
  fromDeg,
});
const SPILLS: readonly [FoundSpill, PlanSide, string, string][] = [
  [
    spill(0),
    'above',
    'spill, 12 % of the light, cooler',
    'spill from the right: 12 % of the light in the middle, give or take 3 %, 56 mired cooler (about 2450 K at 5500 K) than the light',
  ],
  [
    spill(-110, at(155, 19)),
    'side',
    'spill, 12 % of the light, warmer',
    'spill from the top: 12 % of the light in the middle, give or take 3 %, 155 mired warmer (about 2530 K at 5500 K) than the light',
  ],
  [
    spill(150, at(20, 30)),
    'above',
    'spill, 12 % of the light',
    'spill from the left: 12 % of the light in the middle, give or take 3 %',
  ],
  [
    spill(90, at(20, 30)),
    'side',
    'spill, 12 % of the light',
    'spill from the bottom: 12 % of the light in the middle, give or take 3 %',
  ],
  [
    spill(null, at(20, 30)),
    'side',
    'spill, 12 % of the light',
    'spill from all around: 12 % of the light in the middle, give or take 3 %',
  ],
];
test.each(SPILLS)('spill in words: %j seen from %s', (given, seenFrom, note, sentence) => {
  expect(plain(spillNote(given))).toBe(note);
  expect(plain(spillSentence(given, seenFrom))).toBe(sentence);
});

const HIDDEN: readonly [FoundSpill | null, PlanSide, string | null][] = [
  [null, 'above', null],
  [spill(null), 'above', null],
  [spill(0), 'above', null],
  [spill(-90), 'above', 'The spill, from the top, is not seen from above.'],
  [spill(180), 'side', 'The spill, from the left, is not seen from the side.'],
];
test.each(HIDDEN)('hiddenSpill(%j) seen from %s is %j', (given, seenFrom, words) => {
  expect(hiddenSpill(given, seenFrom)).toBe(words);
});

function planOf(change: Partial<PlanInput>, seenFrom: PlanSide = 'above') {
  const input: PlanInput = {
    setup: SHEET,
    aspect: 2 / 3,
    brighterDeg: null,
    hottestAt: { x: 0.3, y: 0.5 },
    isHottestClipped: false,
    moves: [],
    foundLights: [foundLight(at60)],
    spill: null,
    ...change,
  };
  return { input, plan: planView(input, seenFrom, { width: 220, height: 400 }) };
}

test('the plan’s notes and its text alternative name the light and the spill as found', () => {
  const { input, plan } = planOf({ spill: spill(180) });
  expect(planNotes(plan, input, 'cm').map(({ text }) => plain(text))).toEqual([
    'camera, distance not known',
    'the sheet: the frame, 42 cm wide',
    'hottest here',
    'the light, 11 ± 2 cm left, 60 ± 12 cm behind',
    'spill, 12 % of the light, cooler',
  ]);
  expect(plain(planSummary(plan, input, 'cm'))).toMatch(
    /^From above: .*; hottest here; the light stands about 11 cm left of the middle, .*; spill from the left: .* than the light\.$/,
  );
  const side = planOf({ spill: spill(180) }, 'side');
  expect(plain(planSummary(side.plan, side.input, 'cm'))).toMatch(
    / The spill, from the left, is not seen from the side\.$/,
  );
});

test('two lights found are named left and right as the camera sees them; alike, they share a note', () => {
  const setup: Setup = { ...SHEET, arrangement: 'two-lamps', lampDistanceMm: [600, 600] };
  const lights = [foundLight(at60), foundLight({ ...at60, right: at(0.5, 0.1) })];
  const { input, plan } = planOf({ setup, foundLights: lights });
  expect(plain(planSummary(plan, input, 'cm'))).toMatch(
    /; the left light stands about 11 cm left of .*; the right light stands about 21 cm right of the middle, /,
  );
  const side = planOf({ setup, foundLights: lights }, 'side');
  const notes = planNotes(side.plan, side.input, 'cm').map(({ text }) => plain(text));
  expect(notes.at(-1)).toBe('each light, 2.5 ± 0.8 cm below, 60 ± 12 cm in front');
});

test('scaleWords tells what the ovals mean, where there are any', () => {
  const says = (foundLights: readonly FoundLight[], setup = SHEET) =>
    scaleWords(planOf({ foundLights, setup }).plan, setup);
  expect(says([foundLight()])).toMatch(
    /The light is drawn where the frame itself puts it; it may stand anywhere in the oval \(95 %\)\./,
  );
  expect(says([])).not.toMatch(/oval/);
  expect(says([foundLight({ distance: at(1, 0.9) })])).not.toMatch(/oval/);
  const two: Setup = { ...SHEET, arrangement: 'two-lamps' };
  expect(says([foundLight(), foundLight()], two)).toMatch(
    /The lights are drawn where the frame itself puts them; each may stand anywhere in its oval \(95 %\)\./,
  );
});
