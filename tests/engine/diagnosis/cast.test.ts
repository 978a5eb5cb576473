import { describe, expect, test } from 'vitest';
import { colourOfWarmth } from '../../../src/engine/colour/colour-of-warmth.ts';
import { broughtByLights, tintedAllOver } from '../../../src/engine/diagnosis/cast.ts';
import { findings } from '../../../src/engine/diagnosis/findings.ts';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { diagnosisOf, measurementOf } from './measurement-of.ts';
import { setReadingOf } from './set-reading-of.ts';

/** A colour so much warmer and greener than white, as a cast and as what all of the light has in common. */
function warmth(mired: number, duv = 0) {
  const [here, white] = [colourOfWarmth(mired, duv), colourOfWarmth(0, 0)];
  const [deltaUPrime, deltaVPrime] = [here.uPrime - white.uPrime, here.vPrime - white.vPrime];
  return { mired, duv, deltaUPrime, deltaVPrime, deltaUv: Math.hypot(deltaUPrime, deltaVPrime) };
}

function inputOf(
  cast: ReturnType<typeof warmth>,
  main: ReturnType<typeof warmth> | null,
  set: Partial<SetReading> = {},
) {
  const { deltaUv: _, ...mainColour } = main ?? warmth(0);
  return { ...diagnosisOf({ ev: () => 0, cast }), set: main && setReadingOf({ mainColour, ...set }) };
}
const brought = (...[cast, main]: Parameters<typeof inputOf>) => {
  const { measurement, set } = inputOf(cast, main);
  return broughtByLights(measurement.cast, set!);
};

describe('broughtByLights(cast, set)', () => {
  test('is all of the cast where the light has it all over, and none where the light is white', () => {
    for (const [mired, duv] of [
      [20, 0],
      [-15, 0.003],
      [0, -0.004],
    ] as const) {
      const colour = warmth(mired, duv);
      expectWithin(brought(colour, colour), colour.deltaUv, 1e-12);
      expectWithin(brought(colour, warmth(0)), 0, 1e-12);
      expectWithin(brought(colour, warmth(mired / 2, duv / 2)), colour.deltaUv / 2, 0.1 * colour.deltaUv);
    }
  });

  test('is below 0 where the light’s own colour cancels what spill or a tint bring', () => {
    // warm spill over cool light leaves a frame that is a little warm: were the light white, it would be warmer
    expect(brought(warmth(4), warmth(-10))).toBeLessThan(-0.003);
    expect(brought(warmth(0), warmth(-10))).toBeLessThan(-0.003);
    expect(tintedAllOver(inputOf(warmth(12), warmth(-20)))).toBeNull();
  });
});

describe('a colour that all of the light shares', () => {
  const kinds = (...input: Parameters<typeof inputOf>) => findings(inputOf(...input)).map(({ kind }) => kind);

  test('is told as tinted all over where a set was fitted, as a cast where none was: once, never both', () => {
    const colour = warmth(12, -0.002);
    expect(kinds(colour, colour)).toEqual(['tinted-all-over']);
    expect(kinds(colour, null)).toEqual(['cast']);
    // the light is white: whatever brings the cast, it is not the same all over
    expect(kinds(colour, warmth(0))).toEqual(['cast']);
    expect(kinds(warmth(0.5), warmth(0.5))).toEqual([]);
  });

  test('is told in the words of the trade, with what it may be of', () => {
    const [found] = findings(inputOf(warmth(12, -0.002), warmth(11, -0.002)));
    expect(found).toMatchObject({ kind: 'tinted-all-over', ev: null, mired: 11, at: null });
    expect(found!.says).toBe(
      'The whole frame is warmer by 12 mired (about 340 K at 5500 K) and slightly more magenta, against white, and alike all over: it is the light’s own colour, the background’s, or the camera’s white balance.',
    );
    expect(found!.confidence).toBeGreaterThan(0.99);
  });

  test('is told from 0.45 of the tolerance on', () => {
    const { castDeltaUv } = diagnosisOf({ ev: () => 0 }).tolerance;
    const scaled = (share: number) => {
      const deltaUv = share * castDeltaUv;
      return { mired: 3, duv: 0, deltaUPrime: deltaUv, deltaVPrime: 0, deltaUv };
    };
    expect(tintedAllOver(inputOf(scaled(0.46), scaled(0.46)))).not.toBeNull();
    expect(tintedAllOver(inputOf(scaled(0.44), scaled(0.44)))).toBeNull();
    const unsure = measurementOf({ ev: () => 0, cast: { ...scaled(0.46), plusMinusDeltaUv: 0.0025 } });
    expect(tintedAllOver({ ...inputOf(scaled(0.46), scaled(0.46)), measurement: unsure })).toBeNull();
  });

  test('is weighed by the part of the cast that the light brings', () => {
    // nearly all of the cast is the spill's: what is left of it does not reach the least
    expect(kinds(warmth(20), warmth(2))).toEqual(['cast']);
  });
});
