import { describe, expect, test } from 'vitest';
import { NO_CHANGE, NOTHING_CHANGED, type SetChange } from '../../../src/engine/lamps/light-change.ts';
import type { SetLight } from '../../../src/engine/lamps/lit-set.ts';
import type { SecondFrameRole } from '../../../src/engine/lamps/second-frame.ts';
import { seenFrames } from '../../../src/engine/lamps/seen-frames.ts';
import type { SetSamples } from '../../../src/engine/lamps/set-samples.ts';
import { slidSet } from '../../../src/engine/lamps/slid-set.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf, WHITE } from './set-of.ts';

const NONE = Float64Array.of();
const samples = (levelEv: number, exposureEv: number | null): SetSamples => ({
  x: NONE,
  y: NONE,
  ev: NONE,
  uPrime: NONE,
  vPrime: NONE,
  aspect: 2 / 3,
  levelEv,
  exposureEv,
});

const SET = setOf([lightOf({ x: 0.2 }), lightOf({ x: -0.5 })], {
  panel: null,
  spill: { levelEv: -4, rightEv: 1, downEv: 0.5, colour: { mired: 90, duv: 0 } },
  tint: { x: 0, y: 0, rightMired: 10, downMired: 0, duvPerMired: 0, lossEvPerMired: 0, soft: 0.5 },
  lens: { squareEv: 0.3, fourthEv: 0.4, corner: { mired: 3, duv: 0 } },
});

/** The blank frame at −0.5 EV and 2 EV of exposure, and a second one. */
const second = (
  role: SecondFrameRole,
  levelEv: number,
  exposureEv: number | null,
  blankExposureEv: number | null = 2,
) => seenFrames(samples(-0.5, blankExposureEv), [{ role, samples: samples(levelEv, exposureEv) }])[1]!;

test('the blank frame comes first, is the level itself, and shows the set as it is', () => {
  const blank = samples(-0.5, 2);
  const frames = seenFrames(blank, [{ role: { kind: 'lamp-off' }, samples: samples(-3, 2) }]);
  expect(frames).toHaveLength(2);
  expect(frames[0]).toMatchObject({ levelDeviationEv: null, offsetEv: 0 });
  expect(frames[0]!.samples).toBe(blank);
  expect(frames[0]!.seen(SET)).toBe(SET);
  expect(seenFrames(blank, [])).toHaveLength(1);
});

describe('a frame with the lights off', () => {
  const off = { kind: 'lamp-off' } as const;

  test.each([
    // light 3 stops under the blank frame's, whatever the exposure showed of it
    ['the same', -3.5, 2, 2, -3],
    ['four stops longer', 0.5, 6, 2, -3],
    ['one stop shorter', -4.5, 1, 2, -3],
    ['unknown of it', -3.5, null, 2, -3],
    ['unknown of the blank one', -3.5, 6, null, -3],
    ['unknown of both', -3.5, null, null, -3],
  ] as const)('stands on the blank one’s scale where the exposure is %s', (_, level, own, blank, offset) => {
    expectWithin(second(off, level, own, blank).offsetEv, offset, 1e-12);
  });

  test('is known less surely against it where it was exposed otherwise', () => {
    const same = second(off, -3.5, 2).levelDeviationEv!;
    const other = second(off, 0.5, 6).levelDeviationEv!;
    expect(same).toBeLessThan(0.03);
    expect(other).toBeGreaterThan(2 * same);
    expect(other).toBeLessThan(0.1);
    expect(second(off, -3.5, 2.005).levelDeviationEv).toBe(same); // as files round
    expect(second(off, -3.5, null).levelDeviationEv).toBe(same);
  });

  test('shows the room alone, on the same surface and through the same lens', () => {
    const panel = {
      x: 0,
      y: 0,
      levelEv: 0,
      acrossEv: 0,
      downEv: 0,
      rightEv: 0,
      bottomEv: 0,
      halfWidth: 1,
      halfHeight: 1,
      colour: WHITE,
    };
    const { spill, tint, lens, ...rest } = second(off, -3, 2).seen({ ...SET, panel });
    expect({ spill, tint, lens }).toEqual({ spill: SET.spill, tint: SET.tint, lens: SET.lens });
    expect(rest).toMatchObject({ lights: [], panel: null });
  });

  test('counts by its level and colour, not by its exact shape', () => {
    const [blank, room] = seenFrames(samples(0, 0), [{ role: off, samples: samples(-3, 0) }]);
    expect(room!.leastError.ev).toBeGreaterThan(10 * blank!.leastError.ev);
    expect(room!.leastError.uv).toBeGreaterThan(10 * blank!.leastError.uv);
    expect(room!.independentSamples).toBeLessThan(blank!.independentSamples / 10);
  });
});

describe('a lens check', () => {
  const shifted = { kind: 'shifted', rightFrameWidths: 1 / 3, downFrameWidths: -0.1 } as const;

  test('tells nothing by its level, however it was exposed', () => {
    for (const role of [shifted, { kind: 'stopped-down', stops: 2 }] as const)
      for (const [level, exposure] of [
        [-0.5, 2],
        [-2.5, 0],
        [-0.5, null],
      ] as const)
        expect(second(role, level, exposure).levelDeviationEv).toBeGreaterThanOrEqual(3);
  });

  test('with the camera slid shows the slid set', () => {
    expect(second(shifted, -0.5, 2).seen(SET)).toEqual(slidSet(SET, 1 / 3, -0.1));
  });

  test.each([
    [0, 1],
    [0.5, 0.75],
    [1, 0.5],
    [2, 0],
    [4, 0],
  ])(
    'stopped down by %d stops leaves %d of what the barrel cuts off, and all of the natural fall',
    (stops, left) => {
      const seen = second({ kind: 'stopped-down', stops }, -0.5, 2).seen(SET);
      expectWithin(seen.lens!.fourthEv, 0.4 * left, 1e-12);
      expect(seen).toEqual({ ...SET, lens: { ...SET.lens, fourthEv: seen.lens!.fourthEv } });
    },
  );

  test('stopped down changes nothing of a set without a lens', () => {
    const bare = { ...SET, lens: null };
    expect(second({ kind: 'stopped-down', stops: 2 }, -0.5, 2).seen(bare)).toEqual(bare);
  });
});

describe('an earlier take', () => {
  const slid: SetChange = { ...NOTHING_CHANGED, lights: [{ ...NO_CHANGE, right: 0.3 }] };
  const setBack: SetChange = { ...NOTHING_CHANGED, lights: [NO_CHANGE, { ...NO_CHANGE, ratio: 1.5 }] };
  const takes = [slid, setBack].map((change, i) => ({ samples: samples(i, null), change, found: [] }));
  const room = { role: { kind: 'lamp-off' } as const, samples: samples(-3, 2) };
  const frames = seenFrames(samples(-0.5, 2), [room], takes, 600);

  test('stands after the frames of now, oldest first, and tells nothing by its level', () => {
    expect(frames.map(({ isEarlier }) => isEarlier)).toEqual([false, false, true, true]);
    expect(frames.slice(2).map((frame) => frame.samples)).toEqual(takes.map((take) => take.samples));
    for (const { levelDeviationEv, leastError } of frames.slice(2)) {
      expect(levelDeviationEv).toBeGreaterThanOrEqual(5);
      expect(leastError).toEqual(frames[0]!.leastError);
    }
  });

  test('shows the set before all that was changed since', () => {
    const [first, second] = frames.slice(2).map(({ seen }) => seen(SET).lights) as [SetLight[], SetLight[]];
    expectWithin(first[0]!.x, 0.2 - 0.3, 1e-9);
    expectWithin(second[0]!.x, 0.2, 1e-9);
    for (const lights of [first, second]) expectWithin(lights[1]!.distance, 1 / 1.5, 1e-9);
  });
});
