import { expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import type { LengthUnit } from '../../../src/screen/words/length-words.ts';
import { distanceWords, slideWords, turnWords } from '../../../src/screen/words/light-move-words.ts';

const PLAIN = { lamp: 0, bringsEv: null, toward: null, caution: null };
const SLIDE = {
  ...PLAIN,
  kind: 'slide-lamp',
  ...{ rightMm: null, downMm: null, rightFrameWidths: null, downFrameWidths: null },
} as const;
const TURN = {
  ...PLAIN,
  kind: 'turn-lamp',
  ...{ aimRightMm: null, aimDownMm: null, aimRightFrameWidths: null, aimDownFrameWidths: null },
} as const;
const distance = (ratio: number | null, lamp = 0) =>
  ({ ...PLAIN, kind: 'lamp-distance', lamp, ratio }) as const;

const SHEET: Setup = { ...UNKNOWN_SETUP, arrangement: 'behind-sheet', lampDistanceMm: [600] };
const WALL: Setup = { ...SHEET, arrangement: 'bounced' };
const TWO: Setup = { ...UNKNOWN_SETUP, arrangement: 'two-lamps', lampDistanceMm: [900, 900] };
const BARE: Setup = { ...SHEET, lampDistanceMm: [] };

type MoveOfLight = Move & { kind: 'slide-lamp' | 'turn-lamp' | 'lamp-distance' };

function words(move: MoveOfLight, setup: Setup, unit: LengthUnit): string {
  if (move.kind === 'slide-lamp') return slideWords(move, setup, unit);
  return move.kind === 'turn-lamp' ? turnWords(move, setup, unit) : distanceWords(move, setup, unit);
}

const ROWS: readonly (readonly [MoveOfLight, Setup, LengthUnit, string])[] = [
  [{ ...SLIDE, rightMm: -120, downMm: 50 }, WALL, 'cm', 'Slide the light 12 cm left and 5 cm down.'],
  [{ ...SLIDE, rightMm: -120, downMm: 50 }, WALL, 'in', 'Slide the light 4.7 in left and 2 in down.'],
  [{ ...SLIDE, rightMm: 80, lamp: 1 }, TWO, 'cm', 'Slide the right light 8 cm right.'],
  [{ ...SLIDE, rightFrameWidths: 0.25 }, WALL, 'cm', 'Slide the light 25 % of the frame’s width right.'],
  [
    { ...SLIDE, rightFrameWidths: -0.25, downFrameWidths: 0.04 },
    SHEET,
    'cm',
    'Slide the light 25 % of the frame’s width left (from behind the sheet: your right) and 4 % down.',
  ],
  // what nobody measures by eye is a nudge
  [
    { ...SLIDE, rightFrameWidths: 0.01 },
    SHEET,
    'cm',
    'Slide the light a little (1 % of the frame’s width) right (from behind the sheet: your left).',
  ],
  [
    { ...SLIDE, rightFrameWidths: 0.2, downFrameWidths: -0.02 },
    WALL,
    'in',
    'Slide the light 20 % of the frame’s width right and a little (2 %) up.',
  ],
  [{ ...SLIDE, toward: 270 }, WALL, 'cm', 'Slide the light up, a little at a time.'],
  // whoever stands behind the sheet faces the camera
  [
    { ...SLIDE, rightMm: 100, downMm: -10 },
    SHEET,
    'cm',
    'Slide the light 10 cm right (from behind the sheet: your left) and 1 cm up.',
  ],
  [
    { ...SLIDE, rightMm: -100 },
    SHEET,
    'cm',
    'Slide the light 10 cm left (from behind the sheet: your right).',
  ],
  [{ ...SLIDE, rightMm: 0, downMm: -30 }, SHEET, 'cm', 'Slide the light 3 cm up.'],
  [
    { ...SLIDE, toward: 135 },
    SHEET,
    'cm',
    'Slide the light down left (from behind the sheet: your right), a little at a time.',
  ],
  // what hands can't set is not told
  [{ ...SLIDE, rightMm: 74.6, downMm: 4.9 }, WALL, 'cm', 'Slide the light 7 cm right.'],
  [{ ...SLIDE, rightMm: 4, downMm: -5.1 }, WALL, 'cm', 'Slide the light 1 cm up.'],
  [
    { ...TURN, aimRightMm: 80, aimDownMm: 20 },
    TWO,
    'cm',
    'Turn the left light so that it aims 8 cm farther right and 2 cm lower on the background.',
  ],
  [
    { ...TURN, aimRightMm: -80 },
    SHEET,
    'cm',
    'Turn the light so that it aims 8 cm farther left (from behind the sheet: your right).',
  ],
  [
    { ...TURN, aimDownFrameWidths: -0.1 },
    WALL,
    'in',
    'Turn the light so that it aims 10 % of the frame’s width higher on the wall.',
  ],
  [{ ...TURN, toward: 90 }, WALL, 'cm', 'Turn the light so that it aims farther down, a little at a time.'],
  [distance(null), SHEET, 'cm', 'Move the light farther from the sheet.'],
  [distance(1.5), SHEET, 'cm', 'Move the light 30 cm farther from the sheet, to 90 cm.'],
  [distance(0.8), SHEET, 'cm', 'Move the light 12 cm closer to the sheet, to 48 cm.'],
  [distance(2.48458), SHEET, 'cm', 'Move the light 89 cm farther from the sheet, to 149 cm.'],
  [distance(2.48458), SHEET, 'in', 'Move the light 35.1 in farther from the sheet, to 58.7 in.'],
  [distance(1.5), BARE, 'cm', 'Move the light farther from the sheet: 1.50 times its present distance.'],
  [distance(1.006), SHEET, 'cm', 'Move the light farther from the sheet: 1.01 times its present distance.'],
  [
    distance(1.2, 1),
    TWO,
    'cm',
    'Move the right light 18 cm farther from the background, to 108 cm; then aim it at the same spot again.',
  ],
  [
    distance(1.5),
    WALL,
    'cm',
    'Move the light 30 cm farther from the wall, to 90 cm; then aim it at the same spot again.',
  ],
];

test.each(ROWS)('words of %j, %j in %s', (move, setup, unit, sentence) => {
  expect(words(move, setup, unit).replaceAll('\u00a0', ' ')).toBe(sentence);
});
