import { expect, test } from 'vitest';
import { changeMade } from '../../src/engine/moves/change-made.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { movesBack } from '../../src/takes/moves-back.ts';
import { expectWithin } from '../expect-within.ts';

const OUTCOME = { bringsEv: 0.2, toward: null, caution: 'Weight it.' };
const PLAIN = { bringsEv: null, toward: null, caution: null };
const NO_LENGTH = { rightMm: null, downMm: null, rightFrameWidths: null, downFrameWidths: null };

const slide = (rightMm: number, downMm: number, lamp = 0) =>
  ({
    ...OUTCOME,
    kind: 'slide-lamp',
    lamp,
    ...{ rightMm, downMm, rightFrameWidths: rightMm / 400, downFrameWidths: downMm / 400 },
  }) as const;
const turn = (aimRightMm: number, lamp = 0) =>
  ({
    ...OUTCOME,
    kind: 'turn-lamp',
    lamp,
    ...{ aimRightMm, aimDownMm: 0, aimRightFrameWidths: aimRightMm / 400, aimDownFrameWidths: 0 },
  }) as const;
const distance = (ratio: number | null, lamp = 0) =>
  ({ ...OUTCOME, kind: 'lamp-distance', lamp, ratio }) as const;
const power = (stops: number, lamp = 1) => ({ ...OUTCOME, kind: 'balance-lamps', lamp, stops }) as const;
const GEL = { ...OUTCOME, kind: 'gel', lamp: 1, miredShift: -18, duvShift: 0, leavesMired: 3 } as const;
const SHEET = { ...OUTCOME, kind: 'add-diffusion' } as const;
const SPILL = { ...OUTCOME, kind: 'block-stray', fromDeg: 0 } as const;
const EXPOSE = { ...OUTCOME, kind: 'expose', stops: -1 } as const;
const BALANCE = { ...OUTCOME, kind: 'white-balance', miredShift: 9, duvShift: 0 } as const;
const TIGHTER = { ...OUTCOME, kind: 'frame-tighter', left: 0.1, top: 0, right: 1, bottom: 1 } as const;

const make = (move: Move) => ({ kind: 'make', move });
const undo = (move: Move) => ({ kind: 'undo', move });

test('movesBack(done) turns each way round, in the order in which a light is moved', () => {
  expect(movesBack([turn(60), slide(100, -10)])).toEqual([
    make({ ...slide(-100, 10), ...PLAIN }),
    make({ ...turn(-60), ...PLAIN }),
  ]);
  expect(movesBack([distance(2, 1), power(-0.4), distance(0.5)])).toEqual([
    make({ ...distance(2), ...PLAIN }),
    make({ ...distance(0.5, 1), ...PLAIN }),
    make({ ...power(0.4), ...PLAIN }),
  ]);
});

test('movesBack(done) makes one way of several, and none of ways that cancel', () => {
  const [slid, ...more] = movesBack([slide(100, 0), power(0.3), slide(-40, 20), power(-0.3)])!;
  expect(more).toEqual([]);
  expect(slid).toMatchObject({ kind: 'make', move: { kind: 'slide-lamp', rightMm: -60, downMm: -20 } });
  expect(movesBack([slide(100, 0), slide(-97, 4)])).toEqual([]); // within what hands miss by
  expect(movesBack([distance(1.5), distance(1 / 1.5)])).toEqual([]);
  expect(movesBack([slide(100, 0, 0), slide(-100, 0, 1)])).toHaveLength(2); // two lights
});

test('movesBack(done) takes away what was put there, the last first, and leaves the camera alone', () => {
  expect(movesBack([SPILL, SHEET, slide(20, 0), GEL, EXPOSE, BALANCE])).toEqual([
    undo(GEL),
    undo(SHEET),
    undo(SPILL),
    make({ ...slide(-20, 0), ...PLAIN }),
  ]);
  expect(movesBack([EXPOSE, BALANCE])).toEqual([]);
  expect(movesBack([])).toEqual([]);
});

test('movesBack(done) knows no way back from what was not measured, nor from another frame', () => {
  expect(movesBack([distance(null), slide(20, 0)])).toBeNull();
  expect(movesBack([{ ...slide(20, 0), ...NO_LENGTH, toward: 0 }])).toBeNull();
  expect(movesBack([TIGHTER, slide(20, 0)])).toBeNull();
  // one length in mm alone, another in frame widths alone: their sum is in neither
  const inMm = { ...slide(20, 0), rightFrameWidths: null, downFrameWidths: null };
  const inWidths = { ...slide(20, 0), rightMm: null, downMm: null };
  expect(movesBack([inMm])).not.toBeNull();
  expect(movesBack([inWidths])).not.toBeNull();
  expect(movesBack([inMm, inWidths])).toBeNull();
});

test('moves and the way back together change nothing at the set, as the engine understands them', () => {
  const done = [slide(100, -10), distance(1.7, 1), turn(55, 1), power(-0.4), slide(-30, 70, 1), slide(8, 0)];
  const back = movesBack(done)!.map(({ move }) => move);
  const setup = { ...UNKNOWN_SETUP, arrangement: 'two-lamps', frameWidthMm: 400 } as const;
  for (const { ratio, ...lengths } of changeMade([...done, ...back], setup)!.lights) {
    expectWithin(ratio, 1, 1e-12);
    for (const length of Object.values(lengths)) expectWithin(length, 0, 1e-12);
  }
});
