import { describe, expect, test } from 'vitest';
import { type LightChange, NO_CHANGE } from '../../../src/engine/lamps/light-change.ts';
import { changeMade } from '../../../src/engine/moves/change-made.ts';
import type { Move } from '../../../src/engine/moves/move.ts';
import { asTold, movesOfPlan, stepAlone } from '../../../src/engine/moves/moves-of-plan.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';

const CHANGE: LightChange = {
  ...NO_CHANGE,
  ...{ right: 0.2034, down: -0.1049, ratio: 1.4567, aimRight: -0.0511, aimDown: 0.2996, stops: -0.47 },
};
const KNOWN: Setup = { ...UNKNOWN_SETUP, arrangement: 'two-lamps', frameWidthMm: 600, light: 'flash' };
const UNKNOWN: Setup = { ...KNOWN, frameWidthMm: null };
const movesOf = (changes: readonly LightChange[], setup = KNOWN) => movesOfPlan(changes, setup, () => 0.1);
const isWhole = (value: number) => expectWithin(value, Math.round(value), 1e-9);

describe('asTold(change, distance, widthMm)', () => {
  test('goes to whole centimetres where the width of the frame is known, power to tenths of a stop', () => {
    const { right, down, ratio, aimRight, aimDown, stops } = asTold(CHANGE, 1.25, 600);
    for (const way of [right, down, aimRight, aimDown, (ratio - 1) * 1.25]) isWhole((way * 600) / 10);
    // 122.04, −62.94, −30.66 and 179.76 mm; from 750 mm back by 342.5 mm
    [120, -60, -30, 180].forEach((mm, i) => {
      expectWithin(600 * [right, down, aimRight, aimDown][i]!, mm, 1e-9);
    });
    expectWithin(ratio, 1 + 340 / 750, 1e-9);
    expectWithin(stops, -0.5, 1e-12);
  });

  test('goes to hundredths of the width and fiftieths of the distance where it is not', () => {
    const { right, down, ratio, aimRight, aimDown, stops } = asTold(CHANGE, 1.25, null);
    [0.2, -0.1, 1.46, -0.05, 0.3, -0.5].forEach((figure, i) => {
      expectWithin([right, down, ratio, aimRight, aimDown, stops][i]!, figure, 1e-9);
    });
  });

  test('leaves out of a slide what hands would miss of it anyway, and keeps what they would not', () => {
    // 400 mm to the right may miss by 12 mm across: the standard deviation of 5 % of the way and 6 mm
    const told = (right: number, down: number, widthMm: number | null = 1000) =>
      asTold({ ...NO_CHANGE, right, down }, 1, widthMm);
    expect(told(0.4, -0.01)).toMatchObject({ right: 0.4, down: 0 });
    expect(told(-0.01, 0.4)).toMatchObject({ right: 0, down: 0.4 });
    expectWithin(told(0.4, -0.02).down, -0.02, 1e-12);
    expectWithin(told(0.01, 0).right, 0.01, 1e-12);
    expect(told(0.4, 0.01, null).down).toBe(0);
    expectWithin(told(0.2, 0.01, null).down, 0.01, 1e-12);
  });

  test('leaves nothing of what is less than half a step, and colours as they are', () => {
    const little = { ...NO_CHANGE, right: 0.008, down: -0.008, aimRight: 0.008, aimDown: -0.008 };
    for (const [distance, width, change] of [
      [1, 600, { ...little, ratio: 1.008, stops: 0.04 }],
      [1, null, { ...NO_CHANGE, right: 0.004, aimDown: -0.004, ratio: 1.009, stops: -0.04 }],
    ] as const)
      expect(movesOf([asTold(change, distance, width)])).toEqual([]);
    expect(asTold({ ...NO_CHANGE, mired: 12.3, duv: 0.0011 }, 1, 600)).toMatchObject({
      mired: 12.3,
      duv: 0.0011,
    });
  });
});

describe('movesOfPlan(changes, setup, brings)', () => {
  test('tells light after light, each slid, set back, turned and balanced in that order', () => {
    const changes = [asTold(CHANGE, 1.25, 600), asTold(CHANGE, 1.25, 600)];
    expect(movesOf(changes).map((move) => [move.kind, 'lamp' in move ? move.lamp : null])).toEqual(
      [0, 1].flatMap((lamp) => [
        ['slide-lamp', lamp],
        ['lamp-distance', lamp],
        ['turn-lamp', lamp],
        ['balance-lamps', lamp],
      ]),
    );
    expect(movesOf([NO_CHANGE, NO_CHANGE])).toEqual([]);
  });

  test('right and down, farther and brighter are positive, in mm and in widths of the frame', () => {
    expect(movesOf([asTold(CHANGE, 1.25, 600)])).toMatchObject([
      { rightMm: 120, downMm: -60, rightFrameWidths: 0.2, downFrameWidths: -0.1 },
      { ratio: expect.closeTo(1 + 340 / 750, 9) },
      { aimRightMm: -30, aimDownMm: 180, aimRightFrameWidths: -0.05, aimDownFrameWidths: 0.3 },
      { stops: expect.closeTo(-0.5, 9) },
    ]);
    expect(movesOf([asTold(CHANGE, 1.25, null)], UNKNOWN)).toMatchObject([
      { rightMm: null, downMm: null, rightFrameWidths: 0.2, downFrameWidths: -0.1 },
      { ratio: expect.closeTo(1.46, 9) },
      { aimRightMm: null, aimDownMm: null, aimRightFrameWidths: -0.05, aimDownFrameWidths: 0.3 },
      { stops: expect.closeTo(-0.5, 9) },
    ]);
  });

  test('asks what each step brings by itself, and minds the stand wherever one is touched', () => {
    const asked: [number, LightChange][] = [];
    const moves = movesOfPlan([NO_CHANGE, CHANGE], KNOWN, (lamp, change) => {
      asked.push([lamp, change]);
      return asked.length / 10;
    });
    expect(asked).toEqual(
      (['slide', 'distance', 'turn', 'power'] as const).map((step) => [1, stepAlone(CHANGE, step)]),
    );
    expect(asked[0]![1]).toEqual({ ...NO_CHANGE, right: CHANGE.right, down: CHANGE.down });
    expect(asked[3]![1]).toEqual({ ...NO_CHANGE, stops: CHANGE.stops });
    expect(moves.map(({ bringsEv }) => bringsEv)).toEqual([0.1, 0.2, 0.3, 0.4]);
    expect(moves.every(({ toward }) => toward === null)).toBe(true);
    for (const { kind, caution } of moves)
      if (kind === 'balance-lamps') expect(caution).toBeNull();
      else expect(caution).toContain('Weight the stand');
  });

  test('what the moves change at a set is the change that they tell, either way', () => {
    const random = seededRandom(6);
    const some = (): LightChange => ({
      ...{ right: random.normal(), down: random.normal(), ratio: Math.exp(random.normal() / 3) },
      ...{ aimRight: random.normal(), aimDown: random.normal(), stops: random.normal(), mired: 0, duv: 0 },
    });
    for (const setup of [KNOWN, { ...KNOWN, frameWidthMm: 373 }, UNKNOWN])
      for (let i = 0; i < 50; i++) {
        const changes = [some(), some()].map((change) => asTold(change, 1.3, setup.frameWidthMm));
        const made = changeMade(movesOf(changes, setup), setup)!;
        changes.forEach((change, lamp) => {
          for (const [figure, value] of Object.entries(change))
            expectWithin(made.lights[lamp]![figure as keyof LightChange], value, 1e-9);
        });
        expect(made).toMatchObject({ spillEv: 0, isDoubled: false });
        expect(movesOf(made.lights, setup).map(rounded)).toEqual(movesOf(changes, setup).map(rounded));
      }
  });
});

const rounded = (move: Move) =>
  JSON.stringify(move, (_, value) => (typeof value === 'number' ? Number(value.toFixed(9)) : value));
