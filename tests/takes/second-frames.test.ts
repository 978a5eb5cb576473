import { expect, test } from 'vitest';
import type { SecondFrameRole } from '../../src/engine/lamps/second-frame.ts';
import type { SetSamples } from '../../src/engine/lamps/set-samples.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import { areOneFile, type HeldSecondFrame, haveOneShape, heldOver } from '../../src/takes/second-frames.ts';
import {
  blocked,
  diffused,
  exposed,
  gelled,
  powered,
  setBack,
  slid,
  tighter,
  turned,
  whiteBalanced,
} from '../engine/moves/some-moves.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

const { frame } = readingFixture({ columns: 2, rows: 2 });
const sized = (widthPx: number, heightPx: number) => ({ ...frame, widthPx, heightPx });

test.each([
  ['the same size', sized(6000, 4000), true],
  ['half the size', sized(3000, 2000), true],
  ['a margin that a converter trimmed', sized(6024, 4022), true],
  ['an upright frame', sized(4000, 6000), false],
  ['a squarer crop', sized(5600, 4200), false],
])('haveOneShape(frame, %s)', (_what, other, one) => {
  expect(haveOneShape(sized(6000, 4000), other)).toBe(one);
  expect(haveOneShape(other, sized(6000, 4000))).toBe(one);
});

test('areOneFile(a, b) goes by the digest, and says no where there is none', () => {
  expect(areOneFile({ ...frame, sha256: 'a1' }, { ...frame, name: 'copy.png', sha256: 'a1' })).toBe(true);
  expect(areOneFile({ ...frame, sha256: 'a1' }, { ...frame, sha256: 'b2' })).toBe(false);
  expect(areOneFile({ ...frame, sha256: null }, { ...frame, sha256: null })).toBe(false);
});

const reading = readingFixture({ columns: 2, rows: 2 });
const exposedAt = (exposureEv: number | null) => ({ exposureEv }) as SetSamples;
const beside = (role: SecondFrameRole, exposureEv: number | null, size = frame): HeldSecondFrame => ({
  ...{ role, samples: exposedAt(exposureEv), frame: size },
});
const SLID: SecondFrameRole = { kind: 'shifted', rightFrameWidths: 0.3, downFrameWidths: 0 };
const DARK: SecondFrameRole = { kind: 'lamp-off' };
const OF_LIGHTS = [slid(0), setBack(1, null), turned(0), powered(1, 1), gelled(0, 64)];

test.each<
  readonly [what: string, done: readonly Move[], dark: number | null, next: number | null, kinds: string]
>([
  ['nothing was moved', [], null, null, 'shifted lamp-off'],
  ['lights were moved', OF_LIGHTS, -6, -6, 'lamp-off'],
  ['it was exposed otherwise too, and both files say how', [slid(0), exposed], -6, -5, 'lamp-off'],
  ['lights were moved, and the new file does not say how it was exposed', [slid(0)], -6, null, ''],
  ['lights were moved, and the dark file does not say how it was exposed', [slid(0)], null, -6, ''],
  ['the room’s light was blocked', [slid(0), blocked], -6, -6, ''],
  ['a sheet was hung before it', [diffused], -6, -6, ''],
  ['white balance was set', [whiteBalanced], -6, -6, ''],
  ['another part is framed', [tighter], -6, -6, ''],
])('heldOver(frames) where %s', (_what, done, dark, next, kinds) => {
  const held = [beside(SLID, dark), beside(DARK, dark)];
  const kept = heldOver(held, done, { samples: exposedAt(next), reading });
  expect(kept.map(({ role: { kind } }) => kind).join(' ')).toBe(kinds);
  expect(kept.every((each) => held.includes(each))).toBe(true);
});

test('heldOver(frames) leaves out those of another shape', () => {
  const upright = beside(DARK, -6, sized(frame.heightPx, frame.widthPx));
  for (const done of [[], [slid(0)]])
    expect(heldOver([upright], done, { samples: exposedAt(-6), reading })).toEqual([]);
});
