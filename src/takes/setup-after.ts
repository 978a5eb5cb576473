import type { Move } from '../engine/moves/move.ts';
import type { Setup } from '../engine/setup.ts';
import type { Take } from './take.ts';

/**
 * The set-up as it stands at a take: as entered for the first of its set-up, with the distances that followed from
 * the moves done since. A distance changed by an unknown ratio is unknown from then on.
 */
export function setupAtTake(setup: Setup, takes: readonly Take[], id: string): Setup {
  const last = takes.findIndex((take) => take.id === id);
  let first = last;
  while (first > 0 && takes[first]!.done !== null) first--;
  return takes.slice(first + 1, last + 1).reduce((stands, { done }) => setupAfter(stands, done ?? []), setup);
}

/** The set-up after moves: each lamp's distance times the ratios done. */
export function setupAfter(setup: Setup, done: readonly Move[]): Setup {
  const lampDistanceMm = [...setup.lampDistanceMm];
  for (const move of done) {
    if (move.kind !== 'lamp-distance') continue;
    const present = lampDistanceMm[move.lamp] ?? null;
    if (present === null) continue;
    lampDistanceMm[move.lamp] = move.ratio === null ? null : present * move.ratio;
  }
  return { ...setup, lampDistanceMm };
}
