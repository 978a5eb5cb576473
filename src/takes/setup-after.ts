import type { Move } from '../engine/moves/move.ts';
import type { Setup } from '../engine/setup.ts';
import type { HeldTake } from './take.ts';

type StandingTake = Pick<HeldTake, 'id' | 'done' | 'setup' | 'measuredMm'>;

/**
 * The set-up as it stands at a take: as entered for the first of its set-up, with the distances that followed from
 * the moves done since. A distance changed by an unknown ratio is unknown from then on, until it is measured again.
 */
export function setupAtTake(takes: readonly StandingTake[], id: string): Setup {
  const last = takes.findIndex((take) => take.id === id);
  let first = last;
  while (first > 0 && takes[first]!.done !== null) first--;
  return takes.slice(first + 1, last + 1).reduce((stands, { done, measuredMm }) => {
    const after = setupAfter(stands, done ?? []);
    const distances = Array.from(
      { length: Math.max(after.lampDistanceMm.length, measuredMm.length) },
      (_, lamp) => measuredMm[lamp] ?? after.lampDistanceMm[lamp] ?? null,
    );
    return { ...after, lampDistanceMm: distances };
  }, takes[first]!.setup);
}

/** The set-up as it stands for a take that follows the others after moves; as entered where a new set-up begins with it. */
export function setupAtNextTake(takes: readonly StandingTake[], next: Omit<StandingTake, 'id'>): Setup {
  return setupAtTake([...takes, { ...next, id: '' }], '');
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
