import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import type { HeldTake } from '../../src/takes/take.ts';
import { takenBefore, takenBeforeNext } from '../../src/takes/taken-before.ts';
import { setBack, slid } from '../engine/moves/some-moves.ts';

/** A take of which only matters what the engine is told of it. */
function held(
  id: string,
  done: readonly Move[] | null,
  advised: readonly Move[],
  told: readonly Move[] | null,
): HeldTake {
  const take: Pick<HeldTake, 'id' | 'done' | 'setup' | 'measuredMm' | 'foretold' | 'note' | 'secondFrames'> =
    {
      ...{
        id,
        done,
        setup: { ...UNKNOWN_SETUP, lampDistanceMm: [600] },
        measuredMm: [],
        note: '',
        secondFrames: [],
      },
      foretold: told === null ? null : { moves: told, predicted: null },
    };
  const samples = { ev: Float64Array.of(0), name: id };
  return {
    ...take,
    reading: { moves: advised },
    summary: { samples, found: [id] },
  } as unknown as HeldTake;
}

const [FIRST, SECOND, THIRD] = [setBack(0, 1.5), slid(0), setBack(0, 0.9)];
const DONE = setBack(0, 1.2);
/** Judged anew since, the first take would advise something else than it did when the second was shot. */
const TAKES = [held('take-1', null, [THIRD], null), held('take-2', [DONE], [SECOND], [FIRST])];

test('takenBefore(takes, id) holds what was advised when the next take was shot beside what was done', () => {
  const [before, ...others] = takenBefore(TAKES, 'take-2');
  expect(others).toEqual([]);
  expect(before).toMatchObject({ done: [DONE], advised: [FIRST], found: ['take-1'] });
  expect(before!.setup.lampDistanceMm).toEqual([600]);
  expect(takenBefore(TAKES, 'take-1')).toEqual([]);
  expect(takenBefore(TAKES, 'take-9')).toEqual([]);
});

test('takenBeforeNext(takes, done) adds the newest take with what it advises now, oldest first', () => {
  const taken = takenBeforeNext(TAKES, [slid(0)]);
  expect(taken.map(({ done, advised }) => [done, advised])).toEqual([
    [[DONE], [FIRST]],
    [[slid(0)], [SECOND]],
  ]);
  expect(taken[1]!.setup.lampDistanceMm).toEqual([600 * 1.2]);
  expect(takenBeforeNext(TAKES, null)).toEqual([]);
});
