import { expect, test } from 'vitest';
import { gainDifferenceEv } from '../../../src/engine/profile/gain-over-distance.ts';
import { expectWithin } from '../../expect-within.ts';
import { latticeOf, profileOf } from '../correct/profile-of.ts';

const slope = (right: number, down: number) =>
  profileOf(
    latticeOf(37, 25, (x, y) => {
      const gain = right * x + down * y * (480 / 720);
      return [gain, gain, gain];
    }),
  );

test.each([
  ['to the right', slope(1.5, 0), 0.1, 0.15],
  ['down, by as many pixels as to the right', slope(0, 1.5), 0.1, 0.15],
  ['aslant', slope(1, 1), 0.1, 0.1 * Math.SQRT2],
  ['not at all', slope(0, 0), 0.2, 0],
])('gainDifferenceEv(profile) of a slope %s', (_, profile, frameWidths, ev) => {
  expectWithin(gainDifferenceEv(profile, frameWidths), ev, 1e-9);
});

test('gainDifferenceEv(profile) weighs the channels as luminance does', () => {
  const blue = profileOf(latticeOf(5, 5, (x) => [0, 0, x]));
  expectWithin(gainDifferenceEv(blue, 1), Math.log2(1 + 0.0722), 1e-4);
});

test('gainDifferenceEv(profile) over more than the frame is none', () => {
  expect(gainDifferenceEv(slope(1, 1), 3)).toBe(0);
});
