import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { SHEET_SET } from '../studio/even-set.ts';
import { photographSet } from '../studio/photograph-set.ts';
import type { StudioSet } from '../studio/studio-set.ts';
import { lampOffSet, slidSet, stoppedDownSet } from './other-takes.ts';

const set: StudioSet = {
  ...SHEET_SET,
  spill: { level: 0.1, colour: { kind: 'planckian', kelvin: 3000 }, slopeEv: 1, towardDeg: 20 },
  lens: { naturalFall: true, mechanicalEv: 0.3 },
  rim: { side: 'left', reach: 0.1, level: 0.1, soft: 0.01 },
  exposure: { peak: 0.7 },
};
const PLACES = [
  [0.15, 0.2],
  [0.5, 0.5],
  [0.7, 0.9],
] as const;

test('lampOffSet(set) shows the spill alone, at the exposure of the lit take', () => {
  const { spill } = photographSet(set).truth;
  const off = photographSet(lampOffSet(set)).field;
  for (const [x, y] of PLACES)
    off(x, y).forEach((light, channel) => {
      expectWithin(light, spill!(x, y)[channel]!, 1e-12);
    });
  expect(photographSet(lampOffSet({ ...set, spill: null })).field(0.5, 0.5)).toEqual([0, 0, 0]);
});

test('slidSet(set) shows the same light elsewhere in the frame, behind the same lens', () => {
  const exposure = { factor: 1 };
  const [here, slid] = [set, slidSet(set, 0.25)].map((each) => photographSet({ ...each, exposure }));
  for (const [x, y] of PLACES) {
    const was = here!.field(x + 0.25, y)[1] / here!.truth.lensShare(x + 0.25, y);
    expectWithin(slid!.field(x, y)[1] / slid!.truth.lensShare(x, y), was, 1e-9);
    expect(slid!.truth.lensShare(x, y)).toBe(here!.truth.lensShare(x, y));
  }
});

test('a thin sheet’s glow follows the camera that is slid over it', () => {
  const thin = { ...set, rim: { ...set.rim!, level: 1 }, spill: null, lens: null };
  const { field } = photographSet(
    slidSet({ ...thin, background: { kind: 'sheet', forwardShare: 0.95, lobeDeg: 5 } }, 0.3),
  );
  const along = Array.from({ length: 601 }, (_, i) => field(i / 600, 0.5)[1]);
  // camera 1500 in front and 180 to the right, light 900 behind: their line crosses the sheet at 180 × 900 / 2400
  expectWithin(along.indexOf(Math.max(...along)) - 300, 180 * (900 / 2400) - 180, 12);
});

test('stoppedDownSet(set) gives back what the barrel cut off and nothing else', () => {
  const exposure = { factor: 1 };
  const open = photographSet({ ...set, exposure }).field;
  const closed = photographSet({ ...stoppedDownSet(set), exposure }).field;
  expectWithin(Math.log2(closed(1, 1)[1] / open(1, 1)[1]), 0.3, 1e-9);
  expectWithin(closed(0.5, 0.5)[1], open(0.5, 0.5)[1], 1e-12);
});
