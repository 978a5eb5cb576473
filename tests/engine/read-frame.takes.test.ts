import { beforeAll, describe, expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import type { TakenBefore } from '../../src/engine/moves/taken-before.ts';
import { type FrameReport, readFrame } from '../../src/engine/read-frame.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { EVEN_SET } from '../synthetic/studio/even-set.ts';
import { photographSet } from '../synthetic/studio/photograph-set.ts';
import { plainLamp } from '../synthetic/studio/studio-set.ts';
import { fileOf } from './known-frames.ts';

const WIDTH_MM = EVEN_SET.frameWidthMm;
const ASPECT = EVEN_SET.frameHeightMm / WIDTH_MM;
const SETUP: Setup = { ...UNKNOWN_SETUP, arrangement: 'bounced', frameWidthMm: WIDTH_MM };
/** Frame widths right of the middle; how far off nobody has entered. */
const RIGHT = 0.3;
const SLIDE = -0.5;

const slide: Move = {
  ...{ kind: 'slide-lamp', lamp: 0, rightMm: SLIDE * WIDTH_MM, downMm: 0 },
  ...{ rightFrameWidths: SLIDE, downFrameWidths: 0, bringsEv: null, toward: null, caution: null },
};

async function read(
  right: number,
  seed: number,
  earlierTakes: readonly TakenBefore[] = [],
): Promise<FrameReport> {
  const lamp = plainLamp({ xMm: right * WIDTH_MM, distanceMm: 1.5 * WIDTH_MM });
  const { field } = photographSet({
    ...EVEN_SET,
    ...{ background: { kind: 'wall' }, lamps: [lamp], exposure: { peak: 0.8 } },
  });
  const bytes = await fileOf(field, '16 bit', 360, Math.round(360 * ASPECT), seed);
  const options = { setup: SETUP, tolerance: DEFAULT_TOLERANCE, earlierTakes };
  return readFrame([{ name: `take-${seed}.png`, bytes }], options, nodePlatform);
}

describe('readFrame with the take before it and a slide said to be made', () => {
  let before: TakenBefore;

  beforeAll(async () => {
    const { samples, set } = await read(RIGHT, 1);
    before = { samples, setup: SETUP, found: set!.found, done: [slide] };
  });

  test('tells more surely where the light stands than the frame alone', async () => {
    const [alone, both] = [await read(RIGHT + SLIDE, 2), await read(RIGHT + SLIDE, 2, [before])];
    const [one, two] = [alone.set!.lights[0]!.right, both.set!.lights[0]!.right];
    console.log(
      `measured: light at ${(RIGHT + SLIDE).toFixed(2)}: ${one.value.toFixed(3)} ± ${one.plusMinus.toFixed(3)} alone, ${two.value.toFixed(3)} ± ${two.plusMinus.toFixed(3)} together`,
    );
    expectWithin(two.value, RIGHT + SLIDE, two.plusMinus);
    expect(two.plusMinus).toBeLessThan(0.8 * one.plusMinus);
    expect(both.set!.isTakenApart).toBe(false);
    expect(both.fittedWith.earlierTakes).toEqual([before]);
  });

  test('reads the frame alone, and says so, where the slide was not made at all', async () => {
    const [alone, both] = [await read(RIGHT, 3), await read(RIGHT, 3, [before])];
    expect(both.set!.isTakenApart).toBe(true);
    expect(both.set!.lights).toEqual(alone.set!.lights);
    expect(both.reading.moves).toEqual(alone.reading.moves);
  });
});
