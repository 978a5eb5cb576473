import { describe, expect, test } from 'vitest';
import { evenColours } from '../../../src/engine/moves/even-colours.ts';
import { GELS } from '../../../src/engine/moves/gel-strengths.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';
import { about, foundLight, setReadingOf } from '../diagnosis/set-reading-of.ts';
import { gapsOf } from '../reading-gaps.ts';
import { findingOf, movesInputOf } from './moves-input-of.ts';

const INPUT = movesInputOf({ ev: () => 0 }, { arrangement: 'two-lamps', light: 'continuous' });

/** A gel for two lights of which the first is so much warmer. */
function gelFor(apartMired: number, { isTold = true, plusMinusMired = 0.01, isTintLess = true } = {}) {
  const set = setReadingOf({
    lights: [foundLight(), foundLight()],
    balance: { ev: about(0), mired: about(apartMired, plusMinusMired) },
  });
  const findings = isTold ? [findingOf('unequal-colour')] : [];
  const move = evenColours({ ...INPUT, set, findings }, () => isTintLess);
  if (move !== null && move.kind !== 'gel') throw new Error(`${move.kind} came instead`);
  return move;
}

/*
 * Strengths are trade values, one table: gel-strengths.test.ts.
 */
describe('evenColours(input)', () => {
  test.each([
    // the first warmer: blue on it, or orange on the other
    [20, 0, -18, 2],
    [26, 1, 26, 0],
    [36, 0, -35, 1],
    [60, 1, 64, 4],
    [150, 1, 159, 9],
    // the second warmer: blue on it, or orange on the first
    [-20, 1, -18, 2],
    [-27, 0, 26, 1],
    [-80, 1, -78, 2],
    [-112, 0, 109, 3],
    [-140, 1, -137, 3],
  ])('%d mired apart: light %d gets %d, which leaves %d', (apart, lamp, miredShift, leavesMired) => {
    expect(gelFor(apart)).toMatchObject({ kind: 'gel', lamp, miredShift, duvShift: 0, leavesMired });
  });

  test('no gel that is sold, on either light, leaves less', () => {
    for (let apart = -200; apart <= 200; apart += 3) {
      const move = gelFor(apart);
      if (move === null) continue;
      const leaves = (lamp: number, mired: number) => Math.abs(apart + (lamp === 0 ? mired : -mired));
      expect(leaves(move.lamp, move.miredShift)).toBe(move.leavesMired);
      for (const { mired } of GELS)
        for (const lamp of [0, 1])
          expect(leaves(lamp, mired), `${apart}`).toBeGreaterThanOrEqual(move.leavesMired!);
    }
  });

  test('nothing where no gel takes off enough to be worth cutting', () => {
    for (const apart of [0, 5, -5, 10, -10]) expect(gelFor(apart)).toBeNull();
    for (const apart of [12, -12]) expect(gelFor(apart)).not.toBeNull();
  });

  test('nothing where the difference is not told, or there are no two lights to tell of', () => {
    expect(gelFor(60, { isTold: false, plusMinusMired: 51 })).toBeNull();
    expect(gelFor(60, { isTold: false, plusMinusMired: 49 })).not.toBeNull(); // sure enough of it by itself
    expect(gelFor(60, { isTold: false, plusMinusMired: 49, isTintLess: false })).toBeNull();
    expect(gelFor(60, { isTintLess: false })).not.toBeNull(); // the finding has weighed that
    const findings = [findingOf('unequal-colour')];
    expect(evenColours({ ...INPUT, set: setReadingOf(), findings }, () => true)).toBeNull();
    expect(evenColours({ ...INPUT, set: null, findings }, () => true)).toBeNull();
  });

  test('holds what the contract asks of a gel, no more and no less', () => {
    expect(gapsOf(readingFixture({ columns: 4, rows: 3 }, { moves: [gelFor(60)!] }))).toEqual([]);
  });

  test('minds the heat of the head that the gel comes before', () => {
    expect(gelFor(60)!.caution).toContain('clearance');
  });
});
