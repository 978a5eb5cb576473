import type { Move } from '../engine/moves/move.ts';
import type { TakenBefore } from '../engine/moves/taken-before.ts';
import { setupsAtTakes } from './setup-after.ts';
import type { HeldTake } from './take.ts';

/** As many takes as the engine fits together with a later one; of older ones only what was moved counts. */
export const FITTED_TAKES = 5;

/** The takes of its set-up before one, oldest first, for the engine to fit them together. */
export function takenBefore(takes: readonly HeldTake[], id: string): TakenBefore[] {
  const at = takes.findIndex((take) => take.id === id);
  return at < 0 ? [] : chain(takes.slice(0, at), takes[at]!.done, takes[at]!.foretold?.moves);
}

/** The same for a take that is to follow the others after moves; none where a new set-up begins with it. */
export function takenBeforeNext(takes: readonly HeldTake[], done: readonly Move[] | null): TakenBefore[] {
  return chain(takes, done, takes.at(-1)?.reading.moves);
}

/** The ids of the takes that one is fitted together with, oldest first. */
export function fittedTakes(takes: readonly Pick<HeldTake, 'id' | 'done'>[], id: string): string[] {
  const at = takes.findIndex((take) => take.id === id);
  let first = at;
  while (first > 0 && at - first < FITTED_TAKES && takes[first]!.done !== null) first--;
  return takes.slice(Math.max(0, first), Math.max(0, at)).map((take) => take.id);
}

function chain(
  before: readonly HeldTake[],
  done: readonly Move[] | null,
  told: readonly Move[] = [],
): TakenBefore[] {
  if (done === null) return [];
  let first = before.length - 1;
  while (first > 0 && before[first]!.done !== null) first--;
  const ofSetup = before.slice(Math.max(0, first));
  const stands = setupsAtTakes(ofSetup);
  return ofSetup.flatMap(({ summary: { samples, found } }, i): TakenBefore[] => {
    const next = ofSetup[i + 1];
    const after = next === undefined ? done : next.done!;
    const advised = next === undefined ? told : (next.foretold?.moves ?? []);
    const moved = { setup: stands[i]!, done: after, advised };
    if (i >= ofSetup.length - FITTED_TAKES) return [{ samples, found, ...moved }];
    return after.length === 0 ? [] : [{ samples: null, found: [], ...moved }];
  });
}
