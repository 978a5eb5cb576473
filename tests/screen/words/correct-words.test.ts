import { describe, expect, test } from 'vitest';
import {
  correctAllWords,
  DOWNLOADS,
  flagWords,
  othersWords,
  outcomeWords,
  summaryWords,
  thousands,
} from '../../../src/screen/words/correct-frame-words.ts';
import {
  backgroundWords,
  belowWhiteSlipWords,
  clippedWords,
  displacementSentence,
  leftOverWords,
  parseBelowWhite,
  surfaceSentence,
} from '../../../src/screen/words/correct-words.ts';
import type { BatchOutcome } from '../../../workers/correct-batch.ts';

/** With plain spaces, to be read. */
const plain = (words: string | null) => words?.replaceAll(/[\u00a0\u202f]/g, ' ');

test.each([
  ['0.3', 0.3],
  [' 1,25 stops ', 1.3],
  ['2 EV', 2],
  ['0', 0],
  ['-1', null],
  ['7', null],
  ['half', null],
  ['', null],
])('parseBelowWhite(%j) is %s', (text, ev) => {
  expect(parseBelowWhite(text)).toBe(ev);
});

test('belowWhiteSlipWords(text, kept) tells what stays', () => {
  expect(plain(belowWhiteSlipWords('half', 0.3))).toBe(
    '“half” is no level between 0 and 6 stops below white; it stays 0.3 stop.',
  );
});

test.each([
  [
    'plane',
    0.0021,
    [['quadratic', 0.002]],
    'The light is followed by a straight slope: it foretells parts of the frame that it had not seen to within 0.002 stop; a simple dome to within 0.002 stop, which is no sure gain, and the simpler one is less likely to follow noise.',
  ],
  [
    'spline',
    0.001,
    [
      ['plane', 0.2],
      ['radial', 0.02],
    ],
    'The light is followed by a smooth, freely bending surface: it foretells parts of the frame that it had not seen to within 0.001 stop, rings round one centre to within 0.020 stop. It follows the light, not dust, weave or noise.',
  ],
  [
    'set',
    0.004,
    [],
    'The light is followed by the lights that were found: it foretells parts of the frame that it had not seen to within 0.004 stop; the frame has too few cells for anything richer.',
  ],
] as const)('surfaceSentence(%s)', (name, heldOutEv, others, says) => {
  const rest = others.map(([other, ev]) => ({ name: other, heldOutEv: ev }));
  expect(plain(surfaceSentence(name, heldOutEv, [{ name, heldOutEv }, ...rest]))).toBe(says);
});

test.each([
  [0.002, 0.004, 'Left over after it: under 0.01 stop in 95 of 100 cells, 0.01 stop at most.'],
  [0.03, 1.2, 'Left over after it: under 0.03 stop in 95 of 100 cells, 1.20 stops at most.'],
])('leftOverWords(%s, %s)', (usual, most, says) => {
  expect(plain(leftOverWords(usual, most))).toBe(says);
});

test.each([
  [
    0.05,
    0.13,
    420,
    'cm',
    'from 2.1 cm (5 % of the frame’s width) beside, comes out wrong by up to 0.13 stop.',
  ],
  [0.05, 0.13, null, 'cm', 'from 5 % of the frame’s width beside, comes out wrong by up to 0.13 stop.'],
  [
    0.1,
    0.001,
    508,
    'in',
    'from 2 in (10 % of the frame’s width) beside, comes out wrong by up to under 0.01 stop.',
  ],
] as const)('displacementSentence(%s, %s, %s)', (frameWidths, ev, widthMm, unit, ends) => {
  const says = plain(displacementSentence(frameWidths, ev, widthMm, unit))!;
  expect(says).toContain('The light must pass straight through the subject.');
  expect(says.endsWith(ends)).toBe(true);
});

test.each([
  [null, 'No part of it is background for sure: no figures.'],
  [
    { spreadEv: 1.114, deltaUv: 0.00312, belowWhiteEv: 1.02 },
    'Background within 1.11 stops, tint 0.0031 Δu′v′; 1.0 stop below white',
  ],
  [
    { spreadEv: 0.0031, deltaUv: 0, belowWhiteEv: -0.12 },
    'Background within 0.003 stop, tint 0.0000 Δu′v′; 0.1 stop above white',
  ],
])('backgroundWords(%j)', (figures, says) => {
  expect(plain(backgroundWords(figures))).toBe(says);
});

test.each([
  [0, 0, undefined],
  [
    1200,
    0,
    '1 200 pixels, 0.2 %, clipped in the file have no light of their own, and the gains tint or darken them with the rest (hatched from the upper left).',
  ],
  [0, 1, 'about 1 pixel, under 0.1 %, would pass white (hatched from the upper left).'],
  [
    540_000,
    54_000,
    '540 000 pixels, 100.0 %, clipped in the file have no light of their own, and the gains tint or darken them with the rest; about 54 000 pixels, 10.0 %, would pass white (hatched from the upper left).',
  ],
])('clippedWords(%s, %s)', (before, byGains, says) => {
  expect(plain(clippedWords(before, byGains, 540_000)) ?? undefined).toBe(says);
});

const background = (spreadEv: number) => ({ spreadEv, deltaUv: 0, belowWhiteEv: 1, blocks: 9 });
const done = (also: object = {}): BatchOutcome => ({
  ...{ name: 'a.jpg', state: 'done', writtenAs: 'a.corrected.tif', clippedPixels: 0, flags: [] },
  background: null,
  ...also,
});
const refused: BatchOutcome = {
  name: 'b.jpg',
  state: 'refused',
  code: 'no-light',
  message: 'The frame is black.',
};
const cancelled: BatchOutcome = { name: 'c.jpg', state: 'cancelled' };

test.each([
  [done(), 'Written as a.corrected.tif.'],
  [
    done({ clippedPixels: 12345, background: { before: background(1.11), after: background(0.0012) } }),
    'Written as a.corrected.tif; background from 1.11 stops to 0.001 stop; 12 345 pixels beyond white.',
  ],
  [refused, 'The frame is black.'],
  [cancelled, 'Cancelled; nothing of it was written.'],
])('outcomeWords(%j)', (outcome, says) => {
  expect(plain(outcomeWords(outcome))).toBe(says);
});

describe('summaryWords(outcomes) tells', () => {
  test.each<[string, BatchOutcome[], number, string]>([
    [
      'one',
      [done()],
      0,
      '1 of 1 frame corrected and written to the folder set; none clipped by it; none refused.',
    ],
    [
      'all kinds',
      [done(), done({ clippedPixels: 4, flags: ['Another focus.'] }), refused, cancelled],
      1,
      '2 of 5 frames corrected and written to the folder set; 1 to be looked at, for what stands beside it; 1 with pixels taken beyond white; 2 refused, for the reason beside each; 1 cancelled.',
    ],
  ])('%s', (_, outcomes, before, says) => {
    expect(summaryWords(outcomes, before, 'the folder set')).toBe(says);
  });
});

test.each([
  [0, 'Correct all frames'],
  [1, 'Correct this frame'],
  [12, 'Correct all 12 frames'],
])('correctAllWords(%s)', (frames, says) => {
  expect(correctAllWords(frames)).toBe(says);
});

test.each([
  [0, undefined],
  [1, '1 other file in it is no picture that is read here, or an earlier result, and was left out.'],
  [3, '3 other files in it are no pictures that are read here, or earlier results, and were left out.'],
])('othersWords(%s)', (others, says) => {
  expect(othersWords(others) ?? undefined).toBe(says);
});

test.each([
  [999, '999'],
  [1000, '1 000'],
  [24_000_000, '24 000 000'],
])('thousands(%s)', (count, says) => {
  expect(plain(thousands(count))).toBe(says);
});

test('summaryWords says of downloads only that the browser was handed them', () => {
  expect(summaryWords([done()], 0, DOWNLOADS)).toBe(
    '1 of 1 frame corrected and handed to the browser’s downloads; none clipped by it; none refused.',
  );
});

test('flagWords tells how far the lens was focused in the unit of the page', () => {
  const flag = 'The lens was focused at 85 cm; for the blank at 2.4 m: that changes a little. Shoot a blank.';
  expect(flagWords(flag, 'cm')).toBe(flag);
  expect(flagWords(flag, 'in')).toBe(
    'The lens was focused at 33 in; for the blank at 94 in: that changes a little. Shoot a blank.',
  );
  expect(flagWords('focused at infinity; for the blank at 12.4 m', 'in')).toBe(
    'focused at infinity; for the blank at 41 ft',
  );
  const lens = 'The focal length is 50 mm; the blank’s is 85 mm: another part.';
  expect(flagWords(lens, 'in')).toBe(lens);
});
