import { expect, test } from 'vitest';
import { type FrameToCorrect, frameDifferences } from '../../../src/engine/correct/frame-differences.ts';
import type { Profile } from '../../../src/engine/profile/profile.ts';
import { latticeOf, profileOf } from './profile-of.ts';

const exposure = { seconds: 0.01, fNumber: 8, iso: 100, focalLengthMm: 85, takenAt: null };
const plain = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
const profile: Profile = { ...plain, madeFrom: { ...plain.madeFrom, exposure, sha256: 'ab12' } };
const same: FrameToCorrect = {
  widthPx: 720,
  heightPx: 480,
  orientation: 1,
  exposure,
  light: 'display-decoded',
  sha256: 'cd34',
};

test('a frame shot as its blank was differs in nothing', () => {
  expect(frameDifferences(same, profile)).toEqual([]);
  expect(frameDifferences({ ...same, exposure: null, sha256: null }, profile)).toEqual([]);
});

test('another white balance of a raw file is said, where it is another for both', () => {
  const raw = { ...same, light: 'scene-linear' } as const;
  const shot = (...neutral: [number, number, number]) => ({ model: null, subjectDistanceM: null, neutral });
  const linear = { ...profile, light: 'scene-linear' } as const;
  const differs = (own: [number, number, number], its: [number, number, number]) =>
    frameDifferences({ ...raw, shot: shot(...own) }, linear, shot(...its));
  expect(differs([0.5, 1, 0.6], [1, 2, 1.2])).toEqual([]);
  expect(differs([0.5, 1, 0.6], [0.45, 1, 0.6])).toEqual([expect.stringMatching(/another white balance/)]);
  expect(frameDifferences({ ...raw, shot: shot(0.5, 1, 0.6) }, linear)).toEqual([]);
});

for (const [what, change, says] of [
  ['the blank itself', { sha256: 'ab12' }, /^This is the blank frame itself/],
  [
    'half the size',
    { widthPx: 360, heightPx: 240 },
    /another size \(360 × 240 pixels; the blank has 720 × 480\)/,
  ],
  ['a crop', { widthPx: 700, heightPx: 480 }, /another shape, so it seems to be cropped/],
  ['a quarter turn', { widthPx: 480, heightPx: 720 }, /turned by a quarter/],
  ['another orientation', { orientation: 3 }, /Exif orientation 3; the blank’s is 1/],
  [
    'another focal length',
    { exposure: { ...exposure, focalLengthMm: 50 } },
    /focal length is 50 mm; the blank’s is 85 mm/,
  ],
  [
    'another aperture',
    { exposure: { ...exposure, fNumber: 5.6, seconds: 0.005 } },
    /aperture is f\/5\.6; the blank’s is f\/8/,
  ],
  [
    'a longer exposure under a tone curve',
    { exposure: { ...exposure, seconds: 0.04 } },
    /exposed 2\.0 stops more than the blank/,
  ],
  [
    'linear light',
    { light: 'scene-linear' },
    /made from a frame coded for display.*this frame holds linear light/,
  ],
  ['light by a recovered response', { light: 'response-recovered' }, /brought to light by different means/],
] as const) {
  test(`${what} is said, and nothing else`, () => {
    const found = frameDifferences({ ...same, ...change }, profile);
    expect(found).toEqual([expect.stringMatching(says)]);
  });
}

test('another focus and another camera are said where both files tell them', () => {
  const blank = { model: 'Camera 5', subjectDistanceM: 2.4 };
  const told = (shot: Partial<typeof blank>) =>
    frameDifferences({ ...same, shot: { ...blank, ...shot } }, profile, blank);
  expect(told({})).toEqual([]);
  expect(told({ subjectDistanceM: 2.5 })).toEqual([]);
  expect(told({ subjectDistanceM: 0.85 })).toEqual([
    expect.stringMatching(
      /^The lens was focused at 85 cm; for the blank at 2\.4 m: .*Shoot a blank at this focus\.$/,
    ),
  ]);
  expect(told({ subjectDistanceM: 1.237 }).join()).toContain('focused at 1.24 m; for');
  expect(told({ subjectDistanceM: 12.37 }).join()).toContain('focused at 12.4 m; for');
  expect(told({ subjectDistanceM: Number.POSITIVE_INFINITY }).join()).toContain('focused at infinity; for');
  expect(told({ model: 'Camera 9' })).toEqual([
    expect.stringMatching(/another camera \(Camera 9\) than the blank \(Camera 5\)/),
  ]);
  const unknown = { model: null, subjectDistanceM: null };
  expect(frameDifferences({ ...same, shot: unknown }, profile, blank)).toEqual([]);
  expect(frameDifferences({ ...same, shot: blank }, profile, unknown)).toEqual([]);
  expect(frameDifferences({ ...same, shot: blank }, profile)).toEqual([]);
});

test('a frame coded for display is told apart from a linear blank; exposure does not matter to linear light', () => {
  const linear: Profile = { ...profile, light: 'scene-linear' };
  expect(frameDifferences(same, linear)).toEqual([expect.stringMatching(/made from linear light/)]);
  const brighter = { ...same, light: 'scene-linear' as const, exposure: { ...exposure, seconds: 0.08 } };
  expect(frameDifferences(brighter, linear)).toEqual([]);
});
