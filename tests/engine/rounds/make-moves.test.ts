import { describe, expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { handsFrom } from '../../synthetic/random/hands.ts';
import { EVEN_SET, SHEET_SET } from '../../synthetic/studio/even-set.ts';
import { photographSet } from '../../synthetic/studio/photograph-set.ts';
import { plainLamp, type StudioSet } from '../../synthetic/studio/studio-set.ts';
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
} from '../moves/some-moves.ts';
import { EXACT_HANDS } from './exact-hands.ts';
import { madeMoves } from './make-moves.ts';

/** A wall of 500 mm that two lights strike, one of them aimed over the middle. */
const SET: StudioSet = {
  ...EVEN_SET,
  frameWidthMm: 500,
  background: { kind: 'wall' },
  lamps: [
    plainLamp({ xMm: -300, yMm: 20, aimXMm: 50, aimYMm: -10 }),
    plainLamp({ xMm: 400, distanceMm: 800 }),
  ],
  spill: { level: 0.2, colour: { kind: 'planckian', kelvin: 3000 }, slopeEv: 1, towardDeg: 90 },
};
const madeExactly = (moves: readonly Move[], set = SET) => madeMoves(set, moves, EXACT_HANDS);

function expectLamp(set: StudioSet, lamp: number, changes: Record<string, number>): void {
  const [was, is] = [SET.lamps[lamp]!, set.lamps[lamp]!];
  for (const figure of ['xMm', 'yMm', 'distanceMm', 'aimXMm', 'aimYMm', 'power'] as const)
    expectWithin(is[figure], changes[figure] ?? was[figure], 1e-9);
}

describe('madeMoves(set, moves, hands)', () => {
  test('a slide takes light and aim along, right and down', () => {
    const set = madeExactly([slid(0)]);
    expectLamp(set, 0, { xMm: -200, yMm: -30, aimXMm: 150, aimYMm: -60 });
    expectLamp(set, 1, {});
    const { rightMm: _right, downMm: _down, ...rest } = slid(0);
    const inWidths: Move = { ...rest, rightMm: null, downMm: null };
    expectLamp(madeExactly([inWidths]), 0, { xMm: -200, yMm: -30, aimXMm: 150, aimYMm: -60 });
  });

  test('a change of distance leaves place and aimed-at spot, a turn leaves the place', () => {
    expectLamp(madeExactly([setBack(1, 1.5)]), 1, { distanceMm: 1200 });
    expectLamp(madeExactly([turned(0)]), 0, { aimXMm: -100, aimYMm: 20 });
  });

  test('power goes by stops, a gel by mired and greener, its level kept', () => {
    expectLamp(madeExactly([powered(1, -1.5)]), 1, { power: 2 ** -1.5 });
    const { lamps } = madeExactly([gelled(0, 64)]);
    expect(lamps[1]).toEqual(SET.lamps[1]);
    const { colour, ...rest } = lamps[0]!;
    const { colour: before, ...others } = SET.lamps[0]!;
    expect(rest).toEqual(others);
    expectWithin(1e6 / colour.kelvin - 1e6 / before.kelvin, 64, 1e-9);
    expectWithin(colour.duv! - (before.duv ?? 0), 0.001, 1e-12);
  });

  test('a warm cast is gone once the camera is set against it', () => {
    const redOverBlue = (set: StudioSet) => {
      const [red, , blue] = photographSet({ ...set, spill: null }).field(0.5, 0.5);
      return red / blue;
    };
    const white = { kind: 'planckian', kelvin: 5500 } as const;
    const neutral = {
      ...SET,
      lamps: SET.lamps.map((lamp) => ({ ...lamp, colour: white })),
      whiteBalance: white,
    };
    const warm = madeExactly(
      [0, 1].map((lamp) => ({ ...gelled(lamp, 20), duvShift: 0.001 })),
      neutral,
    );
    expect(redOverBlue(warm)).toBeGreaterThan(1.05 * redOverBlue(neutral));
    // told of the white that files are read by, which only nearly adds up with the light's own
    const against = { ...whiteBalanced, miredShift: -20, duvShift: -0.001 };
    expectWithin(redOverBlue(madeExactly([against], warm)), redOverBlue(neutral), 0.02);
  });

  test('a tenth of the spill gets past a flag, nothing of it is made where there is none', () => {
    expectWithin(madeExactly([blocked]).spill!.level, 0.02, 1e-12);
    expect(madeExactly([blocked], { ...SET, spill: null }).spill).toBeNull();
  });

  test('two sheets let straight on what goes straight through both; a wall gets none', () => {
    const sheet = { kind: 'sheet', forwardShare: 0.4, lobeDeg: 20 } as const;
    const { background } = madeExactly([diffused], { ...SHEET_SET, background: sheet });
    if (background.kind !== 'sheet') throw new Error(`${background.kind} came instead`);
    expectWithin(background.forwardShare, 0.16, 1e-12);
    expectWithin(background.lobeDeg, 20 * Math.SQRT2, 1e-9);
    expect(madeExactly([diffused])).toEqual(SET);
  });

  test('nothing is done for frame and exposure, nor where only a direction is known', () => {
    const noLengths = { rightMm: null, downMm: null, rightFrameWidths: null, downFrameWidths: null };
    const noAim = { aimRightMm: null, aimDownMm: null, aimRightFrameWidths: null, aimDownFrameWidths: null };
    const undone: Move[] = [
      ...[exposed, tighter, setBack(0, null)],
      ...[
        { ...slid(0), ...noLengths, toward: 180 },
        { ...turned(0), ...noAim, toward: 90 },
      ],
    ];
    expect(madeExactly(undone)).toEqual(SET);
  });

  test('moves are made one after the other', () => {
    const set = madeExactly([slid(0), setBack(0, 1.2), turned(0), powered(0, 1), slid(0)]);
    expectLamp(set, 0, {
      ...{ xMm: -100, yMm: -80, distanceMm: 720, aimXMm: 100, aimYMm: -80 },
      power: 2,
    });
  });

  test('hands miss by what they miss, and what was not touched stays', () => {
    const hands = handsFrom(seededRandom(3));
    const misses = Array.from({ length: 200 }, () => {
      const { lamps } = madeMoves(SET, [slid(0), setBack(1, 1.5)], hands);
      expect(lamps[1]!.xMm).toBe(SET.lamps[1]!.xMm);
      expect(lamps[0]!.distanceMm).toBe(SET.lamps[0]!.distanceMm);
      return [lamps[0]!.xMm + 200, lamps[1]!.distanceMm - 1200, lamps[0]!.aimXMm - 150] as const;
    });
    // within 5 % of the way and 6 mm; a head of 600 mm off by 2° and somewhat more for its slant
    for (const [figure, most] of [
      [0, 0.05 * 100 + 6],
      [1, 0.05 * 400 + 6],
      [2, 35],
    ] as const) {
      const off = misses.map((each) => Math.abs(each[figure]));
      expect(Math.max(...off)).toBeLessThanOrEqual(most);
      expect(Math.max(...off)).toBeGreaterThan(0.7 * most);
    }
  });
});
