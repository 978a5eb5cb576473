import { describe, expect, test } from 'vitest';
import type { LiveReading } from '../../../src/engine/live/live-reading.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { driftWords, heldWords, liveSentence, settledWords } from '../../../src/screen/words/live-words.ts';

const READING = {
  falloff: { spreadEv: 0.62, isLowerBound: false },
  scatterEv: 0.012,
  curveDoubtEv: 0.1,
  pictures: 40,
  isMoving: false,
  trendEvPerS: null,
  levelDriftEv: 0,
  colourDriftEv: 0,
  clippedShare: 0,
  verdict: { even: 'no' },
} as LiveReading;
const plain = (words: string) => words.replaceAll('\u00a0', ' ');

test.each([
  [{}, '± 0.01 stop over 40 pictures; ± 0.10 stop for the tone curve.'],
  [{ isMoving: true, trendEvPerS: -0.42 }, 'The light moves. The spread falls by 0.4 stop a second.'],
  [{ isMoving: true, trendEvPerS: 1.2 }, 'The light moves. The spread grows by 1.2 stops a second.'],
  [{ scatterEv: null, pictures: 4 }, 'Settling: 4 pictures.'],
  [{ trendEvPerS: 0.01 }, '± 0.01 stop over 40 pictures; ± 0.10 stop for the tone curve.'],
])('%j: %s', (change, words) => {
  expect(plain(settledWords({ ...READING, ...change }))).toBe(words);
});

test.each([
  [{}, '0.6 stop; you asked for 0.3'],
  [{ falloff: { spreadEv: 0.2 }, verdict: { even: 'yes' } }, '0.2 stop; you asked for 0.3: even enough'],
  [{ falloff: { spreadEv: 0.9, isLowerBound: true } }, 'at least 0.9 stop; you asked for 0.3'],
])('%j is told as %s', (change, words) => {
  expect(plain(liveSentence({ ...READING, ...change } as LiveReading, DEFAULT_TOLERANCE))).toBe(words);
});

describe('what drifts', () => {
  test.each([
    ['nothing', {}, []],
    ['a little', { levelDriftEv: 0.1, colourDriftEv: -0.05 }, []],
    ['the level', { levelDriftEv: -0.5 }, [/changed by −0.5\u00a0stop while the light’s shape stayed/]],
    ['the colour', { colourDriftEv: 0.2 }, [/automatic white balance/]],
    [
      'what clips',
      { clippedShare: 0.12, falloff: { ...READING.falloff, isLowerBound: true } },
      [/^12\u00a0% of it is clipped/],
    ],
  ])('%s', (_, change, words) => {
    const told = driftWords({ ...READING, ...change } as LiveReading);
    expect(told).toHaveLength(words.length);
    for (const [i, pattern] of words.entries()) expect(told[i]).toMatch(pattern);
  });
});

test.each([
  ['held', 'held', 'Exposure and white balance: held.'],
  ['held', 'automatic', 'Exposure: held; white balance: automatic. Set them by hand on the camera.'],
  [
    'not-told',
    'not-told',
    'Exposure and white balance: not told by the camera. Set them by hand on the camera.',
  ],
] as const)('exposure %s, white balance %s', (exposure, whiteBalance, words) => {
  expect(heldWords({ exposure, whiteBalance })).toBe(words);
});
