import { describe, expect, test } from 'vitest';
import { NO_CHANGE, NOTHING_CHANGED } from '../../../src/engine/lamps/light-change.ts';
import { BLOCKED_EV, changeMade } from '../../../src/engine/moves/change-made.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
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
} from './some-moves.ts';

const SHEET: Setup = { ...UNKNOWN_SETUP, frameWidthMm: 500 };
const TWO: Setup = { ...SHEET, arrangement: 'two-lamps' };

describe('changeMade(done, setup)', () => {
  test('nothing done changes nothing, of as many lights as there are', () => {
    expect(changeMade([], SHEET)).toEqual({ ...NOTHING_CHANGED, lights: [NO_CHANGE] });
    expect(changeMade([], TWO)).toEqual({ ...NOTHING_CHANGED, lights: [NO_CHANGE, NO_CHANGE] });
  });

  test.each([
    [slid(0), { right: 0.2, down: -0.1 }],
    [turned(0), { aimRight: -0.3, aimDown: 0.06 }],
    [setBack(0, 1.4), { ratio: 1.4 }],
    [powered(0, -0.7), { stops: -0.7 }],
    [gelled(0, 64), { mired: 64, duv: 0.001 }],
    [
      { ...gelled(0, -18), kind: 'lamp-colour' as const },
      { mired: -18, duv: 0.001 },
    ],
  ])('of one light: $kind', (move, change) => {
    expect(changeMade([move], SHEET)!.lights).toEqual([{ ...NO_CHANGE, ...change }]);
    expect(changeMade([{ ...move, lamp: 1 }], TWO)!.lights).toEqual([NO_CHANGE, { ...NO_CHANGE, ...change }]);
  });

  test('of the set besides: spill blocked to a tenth, a second sheet hung', () => {
    expect(changeMade([blocked], TWO)).toMatchObject({ spillEv: BLOCKED_EV, lights: [NO_CHANGE, NO_CHANGE] });
    expectWithin(2 ** BLOCKED_EV, 0.1, 0.002);
    expect(changeMade([diffused], SHEET)).toMatchObject({ isDoubled: true, lights: [NO_CHANGE] });
  });

  test('what is set at the camera changes nothing at the set', () => {
    expect(changeMade([exposed, whiteBalanced], SHEET)).toEqual(changeMade([], SHEET));
  });

  test('adds up what was done to one light', () => {
    const { lights } = changeMade([slid(1), setBack(1, 1.5), slid(1), setBack(1, 1.2), powered(0, 1)], TWO)!;
    expect(lights[0]).toEqual({ ...NO_CHANGE, stops: 1 });
    expectWithin(lights[1]!.right, 0.4, 1e-12);
    expectWithin(lights[1]!.ratio, 1.8, 1e-12);
  });

  test('goes by the mm where the width of the frame is known, and by widths where it is not', () => {
    // 100 mm are 0.2 of 500 mm, whatever the rounded widths say
    const told = { ...slid(0), rightFrameWidths: 0.21, downFrameWidths: -0.11 };
    expect(changeMade([told], SHEET)!.lights[0]).toMatchObject({ right: 0.2, down: -0.1 });
    const unknown = { ...SHEET, frameWidthMm: null };
    expect(changeMade([told], unknown)!.lights[0]).toMatchObject({ right: 0.21, down: -0.11 });
    const noMm = { ...told, rightMm: null, downMm: null };
    expect(changeMade([noMm], SHEET)!.lights[0]).toMatchObject({ right: 0.21, down: -0.11 });
    const noWidths = { ...told, rightFrameWidths: null, downFrameWidths: null };
    expect(changeMade([noWidths], SHEET)!.lights[0]).toMatchObject({ right: 0.2, down: -0.1 });
    expect(changeMade([noWidths], unknown)).toBeNull();
  });

  test.each([
    ['a way of unknown length', { ...slid(0), downMm: null, downFrameWidths: null }, SHEET],
    ['a turn of unknown length', { ...turned(0), aimRightMm: null, aimRightFrameWidths: null }, SHEET],
    ['a distance of unknown ratio', setBack(0, null), SHEET],
    ['another frame', tighter, SHEET],
    ['diffusion on a head', diffused, TWO],
    ['a light that is not there', powered(1, 1), SHEET],
  ])('cannot say what came of %s', (_, move, setup) => {
    expect(changeMade([move], setup)).toBeNull();
    expect(changeMade([exposed, move, slid(0)], setup)).toBeNull();
  });

  test('nor of a third sheet', () => {
    expect(changeMade([diffused, diffused], SHEET)).toBeNull();
  });
});
