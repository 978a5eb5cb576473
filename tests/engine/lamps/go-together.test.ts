import { expect, test } from 'vitest';
import { goTogether, isMuchWorse } from '../../../src/engine/lamps/go-together.ts';
import { NOTHING_CHANGED } from '../../../src/engine/lamps/light-change.ts';
import { seenFrames } from '../../../src/engine/lamps/seen-frames.ts';
import type { SetSamples } from '../../../src/engine/lamps/set-samples.ts';

const NONE = Float64Array.of();
const samples: SetSamples = {
  ...{ x: NONE, y: NONE, ev: NONE, uPrime: NONE, vPrime: NONE },
  ...{ aspect: 2 / 3, levelEv: 0, exposureEv: null },
};
const take = { samples, change: NOTHING_CHANGED, found: [] };
const lampOff = { role: { kind: 'lamp-off' }, samples } as const;
const left = (...evs: number[]) => ({ leftOver: evs.map((ev) => ({ ev, uv: 0 })) });

test('a frame by itself goes with itself, however badly it is followed', () => {
  expect(goTogether(left(0.1), seenFrames(samples, []))).toBe(true);
  expect(goTogether(left(0.1, 0.2), seenFrames(samples, [lampOff]))).toBe(true);
});

test('takes go together where one set follows all of them; second frames are not asked', () => {
  const frames = seenFrames(samples, [lampOff], [take]);
  expect(goTogether(left(0.001, 0.2, 0.002), frames)).toBe(true);
  expect(goTogether(left(0.001, 0.001, 0.004), frames)).toBe(false);
  expect(goTogether(left(0.004, 0.001, 0.001), frames)).toBe(false);
});

test('takes are at odds only where the present frame is followed far better by itself', () => {
  const frames = seenFrames(samples, [lampOff], [take]);
  expect(isMuchWorse(left(0.001, 0.2, 0.006), frames, { leftOverEv: 0.001 })).toBe(true);
  expect(isMuchWorse(left(0.006, 0.2, 0.006), frames, { leftOverEv: 0.005 })).toBe(false);
});
