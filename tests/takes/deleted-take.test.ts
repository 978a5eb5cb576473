import { describe, expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { withoutTake, withTakenBack } from '../../src/takes/deleted-take.ts';
import { setupAtTake } from '../../src/takes/setup-after.ts';
import { type HeldTake, withTake } from '../../src/takes/take.ts';
import { setBack, slid } from '../engine/moves/some-moves.ts';
import { heldTake } from './held-take.ts';

const SETUP = { ...UNKNOWN_SETUP, lampDistanceMm: [600] };
const FORETOLD = { moves: [], predicted: null };

function take(number: number, done: readonly Move[] | null, measuredMm: (number | null)[] = []): HeldTake {
  const foretold = done === null ? null : FORETOLD;
  return heldTake(`take-${number}`, { done, measuredMm, foretold, setup: SETUP });
}

/** Two set-ups: the first of three takes, the second of two. */
const TAKES = [
  take(1, null),
  take(2, [setBack(0, 1.5)]),
  take(3, [slid(0), setBack(0, 2)]),
  take(4, null),
  take(5, [slid(0)]),
];
const kinds = (takes: readonly HeldTake[]) =>
  takes.map(({ id, done }) => [id, done?.map(({ kind }) => kind) ?? null]);
const standsAt = (takes: readonly HeldTake[], id: string) => setupAtTake(takes, id).lampDistanceMm;

describe('withoutTake(takes, id)', () => {
  test('gives what was done before it to the take that followed, whose set stands as it did', () => {
    const rest = withoutTake(TAKES, 'take-2');
    expect(kinds(rest).slice(0, 2)).toEqual([
      ['take-1', null],
      ['take-3', ['lamp-distance', 'slide-lamp', 'lamp-distance']],
    ]);
    expect(standsAt(rest, 'take-3')).toEqual(standsAt(TAKES, 'take-3'));
    expect(rest[1]!.foretold).toBeNull(); // the take that told is gone
    expect(rest.slice(2)).toEqual(TAKES.slice(3));
  });

  test('has the first of a set-up hand on how its set stands', () => {
    const rest = withoutTake(TAKES, 'take-1');
    expect(kinds(rest).slice(0, 2)).toEqual([
      ['take-2', null],
      ['take-3', ['slide-lamp', 'lamp-distance']],
    ]);
    for (const id of ['take-2', 'take-3']) expect(standsAt(rest, id)).toEqual(standsAt(TAKES, id));
    expect(rest.slice(0, 2).map(({ setup }) => setup.lampDistanceMm)).toEqual([[900], [900]]);
  });

  test('leaves a take that begins another set-up as it is', () => {
    expect(withoutTake(TAKES, 'take-3')).toEqual(TAKES.toSpliced(2, 1));
  });

  test('keeps a distance that was measured at it', () => {
    const takes = [take(1, null), take(2, [setBack(0, null)], [830]), take(3, [slid(0)])];
    expect(standsAt(withoutTake(takes, 'take-2'), 'take-3')).toEqual([830]);
  });

  test('keeps for the take to come what was moved before the newest, also where that goes too', () => {
    const rest = withoutTake(TAKES, 'take-5');
    expect(rest.at(-1)!.movedSince).toEqual({ done: [slid(0)], measuredMm: [] });
    const fewer = withoutTake(withoutTake(TAKES.slice(0, 3), 'take-3'), 'take-2');
    expect(fewer.at(-1)!.movedSince!.done!.map(({ kind }) => kind)).toEqual([
      'lamp-distance',
      'slide-lamp',
      'lamp-distance',
    ]);
    // where a set-up had begun, the next take begins it
    expect(withoutTake(rest, 'take-4').at(-1)!.movedSince!.done).toBeNull();
    expect(withoutTake([take(1, null)], 'take-1')).toEqual([]);
  });
});

describe('withTakenBack(takes, deleted)', () => {
  for (const { id } of TAKES)
    test(`puts ${id} back with everything as it was`, () => {
      const at = TAKES.findIndex((each) => each.id === id);
      const deleted = { take: TAKES[at]!, next: TAKES[at + 1] ?? null };
      expect(withTakenBack(withoutTake(TAKES, id), deleted)).toEqual(TAKES);
    });

  test('keeps what was written on the others meanwhile', () => {
    const rest = withoutTake(TAKES, 'take-2').map((each) => ({ ...each, note: 'noted' }));
    const back = withTakenBack(rest, { take: TAKES[1]!, next: TAKES[2]! });
    expect(back.map(({ note }) => note)).toEqual(['noted', '', 'noted', 'noted', 'noted']);
  });

  test('gives back the moves before it that a take read since had got', () => {
    const rest = withoutTake(TAKES, 'take-5');
    const { reading: _r, note: _n, summary: _s, ...next } = heldTake('take-6');
    const since = withTake(rest, { ...next, done: [slid(0), setBack(0, 2)] });
    expect(since.every(({ movedSince }) => movedSince === null)).toBe(true);
    const back = withTakenBack(since, { take: TAKES[4]!, next: null });
    expect(kinds(back).slice(-2)).toEqual([
      ['take-5', ['slide-lamp']],
      ['take-6', ['lamp-distance']],
    ]);
  });
});
