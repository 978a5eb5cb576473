import type { Move } from '../engine/moves/move.ts';
import type { TakenBefore } from '../engine/moves/taken-before.ts';
import { setupAtTake } from './setup-after.ts';
import type { HeldTake } from './take.ts';

/** The takes of its set-up before one, oldest first, for the engine to fit them together. */
export function takenBefore(takes: readonly HeldTake[], id: string): TakenBefore[] {
  const at = takes.findIndex((take) => take.id === id);
  return at < 0 ? [] : chain(takes.slice(0, at), takes[at]!.done, takes[at]!.foretold?.moves);
}

/** The same for a take that is to follow the others after moves; none where a new set-up begins with it. */
export function takenBeforeNext(takes: readonly HeldTake[], done: readonly Move[] | null): TakenBefore[] {
  return chain(takes, done, takes.at(-1)?.reading.moves);
}

function chain(
  before: readonly HeldTake[],
  done: readonly Move[] | null,
  told: readonly Move[] = [],
): TakenBefore[] {
  const taken: TakenBefore[] = [];
  let [after, advised] = [done, told];
  for (let i = before.length - 1; i >= 0 && after !== null; i--) {
    const { id, report } = before[i]!;
    const setup = setupAtTake(before, id);
    taken.unshift({ samples: report.samples, setup, found: report.set?.found ?? [], done: after, advised });
    [after, advised] = [before[i]!.done, before[i]!.foretold?.moves ?? []];
  }
  return taken;
}
