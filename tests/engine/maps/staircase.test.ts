import { describe, expect, test } from 'vitest';
import { meanError, staircase } from '../../../src/engine/maps/staircase.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

/** Mean of what rounding adds over codes spread evenly about one, tried out code by code. */
function triedError(code: number, span: number, round: (code: number) => number): number {
  const tries = 20_000;
  let sum = 0;
  for (let i = 0; i < tries; i++) {
    const here = code + span * ((i + 0.5) / tries - 0.5);
    sum += round(here) - here;
  }
  return sum / tries;
}

describe('meanError(staircase)', () => {
  test('is the mean of rounding to whole codes over any span', () => {
    const stairs = staircase(0, 0);
    let worst = 0;
    for (const span of [0.02, 0.3, 1, 1.7, 6.4])
      for (let code = 40; code < 43; code += 0.037)
        worst = Math.max(worst, Math.abs(meanError(stairs, code, span) - triedError(code, span, Math.round)));
    console.log(`measured: mean rounding errors lie within ${worst.toFixed(4)} code of those tried out`);
    expect(worst).toBeLessThan(0.01);
  });

  test('is 0 over a whole code, and all but 0 over many', () => {
    const stairs = staircase(0, 0);
    expectWithin(meanError(stairs, 17.3, 1), 0, 1e-9);
    expect(Math.abs(meanError(stairs, 17.3, 20.5))).toBeLessThan(0.01);
  });

  test.each([0.3, 0.75, 2.5])('is the mean of two roundings, first to multiples of %f', (first) => {
    const stairs = staircase(0, first);
    const twice = (code: number) => Math.round(Math.round(code / first) * first);
    // one period back to back with itself: where the first steps and whole codes fall together again
    for (let code = 3.1; code < 13; code += 0.41)
      expectWithin(meanError(stairs, code, 1.3), triedError(code, 1.3, twice), 0.03);
  });

  test('shrinks with noise as dither lets it: to nothing at half a code', () => {
    const random = seededRandom(8);
    for (const sigma of [0.15, 0.3, 0.5]) {
      const stairs = staircase(sigma ** 2, 0);
      for (const code of [20.1, 20.25, 20.4]) {
        const tries = 40_000;
        let sum = 0;
        for (let i = 0; i < tries; i++) sum += Math.round(code + sigma * random.normal()) - code;
        expectWithin(meanError(stairs, code, 0.02), sum / tries, 4 * (0.6 / Math.sqrt(tries)) + 0.002);
      }
    }
    expect(Math.abs(meanError(staircase(0.25, 0), 20.25, 0.02))).toBeLessThan(0.003);
    expect(Math.abs(meanError(staircase(0, 0), 20.25, 0.02))).toBeGreaterThan(0.2);
  });

  test('repeats after its period, far from 0 and below it', () => {
    const stairs = staircase(0, 0.75);
    for (const code of [-30, 0.2, 200.2])
      expectWithin(meanError(stairs, code + stairs.periodCodes, 0.8), meanError(stairs, code, 0.8), 1e-9);
  });
});
