import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { areAsAdvised } from '../../src/takes/as-advised.ts';

const PLAIN = { bringsEv: null, toward: null, caution: null };
const slide = (rightMm: number | null, rightFrameWidths: number | null = null, lamp = 0): Move => ({
  ...{ ...PLAIN, kind: 'slide-lamp', lamp, rightMm, downMm: rightMm === null ? null : 0 },
  ...{ rightFrameWidths, downFrameWidths: rightFrameWidths === null ? null : 0 },
});
const turn = (aimRightMm: number | null, aimRightFrameWidths: number | null = null): Move => ({
  ...{ ...PLAIN, kind: 'turn-lamp', lamp: 0, aimRightMm, aimDownMm: aimRightMm === null ? null : 0 },
  ...{ aimRightFrameWidths, aimDownFrameWidths: aimRightFrameWidths === null ? null : 0 },
});
const distance = (ratio: number | null, lamp = 0): Move => ({ ...PLAIN, kind: 'lamp-distance', lamp, ratio });
const power = (stops: number): Move => ({ ...PLAIN, kind: 'balance-lamps', lamp: 1, stops });
const SHEET: Move = { ...PLAIN, kind: 'add-diffusion' };
const SPILL: Move = { ...PLAIN, kind: 'block-stray', fromDeg: 0 };

const ROWS: readonly (readonly [Move, Move, boolean])[] = [
  // hands miss by 6 mm and a twentieth of the way
  [slide(110), slide(100), true],
  [slide(112), slide(100), false],
  [slide(-100), slide(100), false],
  [slide(100, null, 1), slide(100), false],
  // the frame's widths count where the lengths in mm are not known of both
  [slide(100, 0.25), slide(null, 0.25), true],
  [slide(null, 0.28), slide(null, 0.25), false],
  [slide(100), slide(null, 0.25), false],
  [slide(null), slide(100), false],
  [turn(108), turn(100), true],
  [turn(120), turn(100), false],
  [turn(null, 0.25), turn(null, 0.26), true],
  [turn(null), turn(100), false],
  [distance(1.52), distance(1.5), true],
  [distance(1.6), distance(1.5), false],
  [distance(null), distance(1.5), false],
  [distance(1.5, 1), distance(1.5), false],
  [power(0.32), power(0.3), true],
  [power(0.4), power(0.3), false],
  [SHEET, SHEET, true],
  [SHEET, SPILL, false],
];
test.each(ROWS)('%j done as %j was advised: %s', (done, advised, is) => {
  expect(areAsAdvised([done], [advised])).toBe(is);
});

test('moves are made as advised one for one', () => {
  expect(areAsAdvised([SPILL, slide(100)], [SPILL, slide(100)])).toBe(true);
  expect(areAsAdvised([SPILL], [SPILL, slide(100)])).toBe(false);
  expect(areAsAdvised([], [])).toBe(true);
});
