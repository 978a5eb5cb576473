import { expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import type { Falloff, FrameRectangle } from '../../../src/engine/reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { evenerTakeWords } from '../../../src/screen/words/evener-take-words.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const PLAIN = { bringsEv: null, toward: null, caution: null };
const SLIDE: Move = {
  ...{ ...PLAIN, kind: 'slide-lamp', lamp: 0, rightMm: 100, downMm: 0 },
  ...{ rightFrameWidths: 0.25, downFrameWidths: 0 },
};
const FARTHER: Move = { ...PLAIN, kind: 'lamp-distance', lamp: 0, ratio: 1.5 };
const SETUP: Setup = { ...UNKNOWN_SETUP, arrangement: 'bounced', frameWidthMm: 400, lampDistanceMm: [600] };

interface Told {
  readonly falloff?: Partial<Falloff>;
  readonly region?: FrameRectangle;
  readonly setup?: Setup;
}

/** Takes of so many stops each, ± 0.02, and what was done before each. */
function takes(...told: readonly (readonly [spreadEv: number, done: readonly Move[] | null, more?: Told])[]) {
  return told.map(([spreadEv, done, { falloff = {}, region, setup = SETUP } = {}], i) => {
    const plain = readingFixture({ columns: 2, rows: 2 });
    const reading = {
      ...plain,
      region: region ?? plain.region,
      falloff: { ...plain.falloff, spreadEv, plusMinusEv: 0.02, ...falloff },
    };
    return { id: `take-${i + 1}`, reading, done, setup, measuredMm: [], note: '' };
  });
}

/** With plain spaces, where a line may not break. */
function words(all: ReturnType<typeof takes>) {
  const told = evenerTakeWords(all, DEFAULT_TOLERANCE, 'cm');
  return told && { ...told, steps: told.steps.map((step) => step.replaceAll('\u00a0', ' ')) };
}

test('evenerTakeWords(takes) tells the way back from the newest take to the most even one of its set-up', () => {
  expect(words(takes([0.9, null], [0.3, [SLIDE]], [0.6, [FARTHER]]))).toEqual({
    says: 'Take 2 of this set-up was more even than the newest. To go back to it:',
    steps: ['Move the light 30 cm closer to the wall, to 60 cm; then aim it at the same spot again.'],
  });
  expect(words(takes([0.3, null], [0.9, [SLIDE]], [0.6, [SLIDE, FARTHER]]))!.steps).toEqual([
    'Slide the light 20 cm left.',
    'Move the light 30 cm closer to the wall, to 60 cm; then aim it at the same spot again.',
  ]);
});

test('what was put there is taken away again', () => {
  const put: readonly Move[] = [
    { ...PLAIN, kind: 'block-stray', fromDeg: null },
    { ...PLAIN, kind: 'add-diffusion' },
    { ...PLAIN, kind: 'gel', lamp: 1, miredShift: 26, duvShift: 0, leavesMired: null },
    { ...PLAIN, kind: 'lamp-colour', lamp: 0, miredShift: 26, duvShift: 0, leavesMired: null },
  ];
  const setup = { ...SETUP, arrangement: 'two-lamps' } as const;
  expect(words(takes([0.3, null, { setup }], [0.9, put, { setup }]))!.steps).toEqual([
    'Set the left light back to the colour it had.',
    'Take the gel off the right light again.',
    'Take the added layer of diffusion down again.',
    'Let the spill in again: take away what blocks it.',
  ]);
});

test('where the way back is not known, or there is none to go, it says so', () => {
  expect(words(takes([0.3, null], [0.9, [SLIDE, { ...FARTHER, ratio: null } as Move]]))).toEqual({
    says: 'Take 1 of this set-up was more even than the newest; it is not known in figures what was moved since.',
    steps: [],
  });
  expect(words(takes([0.3, null], [0.9, []]))).toEqual({
    says: 'Take 1 of this set-up was more even than the newest, though no light was moved since.',
    steps: [],
  });
});

const CROPPED = { left: 0.1, top: 0, right: 1, bottom: 1 };
const SILENT: readonly (readonly [string, ReturnType<typeof takes>])[] = [
  ['one take', takes([0.9, null])],
  ['the newest is the most even', takes([0.9, null], [0.3, [SLIDE]])],
  ['no more than both their ± apart', takes([0.3, null], [0.328, [SLIDE]])],
  ['another set-up', takes([0.3, null], [0.9, null], [0.8, [SLIDE]])],
  ['an earlier take that clips', takes([0.3, null, { falloff: { isLowerBound: true } }], [0.9, [SLIDE]])],
  ['another part of the frame', takes([0.3, null, { region: CROPPED }], [0.9, [SLIDE]])],
];
test.each(SILENT)('evenerTakeWords says nothing of %s', (_, all) => {
  expect(words(all)).toBeNull();
});

test('beyond both their ± an earlier take is the more even one', () => {
  expect(words(takes([0.3, null], [0.329, [SLIDE]]))).not.toBeNull();
});
