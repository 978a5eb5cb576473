import type { Move } from '../engine/moves/move.ts';
import type { Reading } from '../engine/reading.ts';
import type { HeldTake } from './take.ts';

/** What a take said of the one to come, as it stood when that was shot: judged anew it may plan something else. */
export type Foretold = Pick<Reading, 'moves' | 'predicted'>;

/** What is told of a take that is to follow the others after moves; `null` where a new set-up begins with it. */
export function foretoldNext(
  takes: readonly Pick<HeldTake, 'reading'>[],
  done: readonly Move[] | null,
): Foretold | null {
  const newest = takes.at(-1);
  if (done === null || newest === undefined) return null;
  const { moves, predicted } = newest.reading;
  return { moves, predicted };
}

/** What a take told of the one that followed it; `null` for the newest, and where a new set-up followed. */
export function toldBefore(takes: readonly Pick<HeldTake, 'id' | 'foretold'>[], id: string): Foretold | null {
  return takes[takes.findIndex((take) => take.id === id) + 1]?.foretold ?? null;
}
