import { setupAtTake } from './setup-after.ts';
import { type HeldTake, type MovedSince, takeNumber, withSetup } from './take.ts';

/** A take that was deleted, and what has to stand again when it is taken back. */
export interface DeletedTake {
  readonly take: HeldTake;
  /** The take that followed it, as it was; `null` where it was the newest. */
  readonly next: HeldTake | null;
}

/**
 * The takes without one. The lights were moved all the same: what was done before it goes over to the take that followed,
 * or to the one to come; the first of a set-up hands on how that set stands. What it foretold goes with it.
 */
export function withoutTake(takes: readonly HeldTake[], id: string): HeldTake[] {
  const at = takes.findIndex((take) => take.id === id);
  const take = takes[at]!;
  const [before, next] = [takes[at - 1], takes[at + 1]];
  const rest = takes.toSpliced(at, 1);
  if (next === undefined)
    return before === undefined ? rest : rest.with(-1, { ...before, movedSince: movedWith(take) });
  if (next.done === null) return rest;
  const stands = setupAtTake(takes, next.id);
  const alone = { ...next, foretold: null };
  if (take.done === null)
    return withSetup(rest.with(at, { ...alone, done: null, measuredMm: [] }), next.id, stands);
  const isMeasured = take.measuredMm.some((mm) => mm !== null);
  return rest.with(at, {
    ...alone,
    done: [...take.done, ...next.done],
    measuredMm: isMeasured ? stands.lampDistanceMm : next.measuredMm,
  });
}

/** The takes with a deleted one at its place again; what was read since goes after it. */
export function withTakenBack(takes: readonly HeldTake[], { take, next }: DeletedTake): HeldTake[] {
  const after = takes.findIndex((each) => takeNumber(each) > takeNumber(take));
  const at = after < 0 ? takes.length : after;
  const back = [...takes.slice(0, at), take, ...takes.slice(at)].map((each, i) =>
    i === at - 1 && each.movedSince !== null ? { ...each, movedSince: null } : each,
  );
  const follows = back[at + 1];
  if (follows === undefined) return back;
  if (follows.id === next?.id) {
    const { done, measuredMm, foretold } = next;
    const asItWas = back.with(at + 1, { ...follows, done, measuredMm, foretold });
    const isHandedBack = take.done === null && done !== null;
    return isHandedBack ? withSetup(asItWas, take.id, take.setup) : asItWas;
  }
  // read since: what was done before the deleted take is its own again
  const isCarriedOver = follows.done !== null && take.done !== null;
  return isCarriedOver
    ? back.with(at + 1, { ...follows, done: follows.done!.slice(take.done!.length) })
    : back;
}

/** What was done between the take before this one and the one to come. */
function movedWith({ done, measuredMm, movedSince }: HeldTake): MovedSince {
  const moved = { done, measuredMm };
  return movedSince === null ? moved : movedOn(moved, movedSince);
}

/** Moves and what was done after them, as one; where a new set-up began, what went before it counts no longer. */
export function movedOn(first: MovedSince, then: MovedSince): MovedSince {
  if (first.done === null || then.done === null) return { done: null, measuredMm: [] };
  const lamps = Math.max(first.measuredMm.length, then.measuredMm.length);
  const { done } = then;
  const isMovedAgain = (lamp: number) =>
    done.some((move) => move.kind === 'lamp-distance' && move.lamp === lamp);
  return {
    done: [...first.done, ...done],
    measuredMm: Array.from({ length: lamps }, (_, lamp) => {
      const measured = isMovedAgain(lamp) ? null : (first.measuredMm[lamp] ?? null);
      return then.measuredMm[lamp] ?? measured;
    }),
  };
}
