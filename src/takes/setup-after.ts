import type { Move } from '../engine/moves/move.ts';
import type { Setup } from '../engine/setup.ts';
import type { HeldTake } from './take.ts';

/** As much of a take as tells how its set stands. */
export type StandingTake = Pick<HeldTake, 'id' | 'done' | 'setup' | 'measuredMm'>;

/**
 * The set-up as it stands at a take: as entered for the first of its set-up, with the distances that followed from
 * the moves done since. A distance changed by an unknown ratio is unknown from then on, until it is measured again.
 */
export function setupAtTake(takes: readonly StandingTake[], id: string): Setup {
  const last = takes.findIndex((take) => take.id === id);
  let first = last;
  while (first > 0 && takes[first]!.done !== null) first--;
  return setupsAtTakes(takes.slice(first, last + 1)).at(-1)!;
}

/** The same for each of the takes of one set-up, the first of which began it. */
export function setupsAtTakes(ofSetup: readonly StandingTake[]): Setup[] {
  const stands: Setup[] = [];
  for (const { setup, done, measuredMm } of ofSetup)
    stands.push(
      stands.length === 0 ? setup : setupMeasured(setupAfter(stands.at(-1)!, done ?? []), measuredMm),
    );
  return stands;
}

function setupMeasured(after: Setup, measuredMm: readonly (number | null)[]): Setup {
  const distances = Array.from(
    { length: Math.max(after.lampDistanceMm.length, measuredMm.length) },
    (_, lamp) => measuredMm[lamp] ?? after.lampDistanceMm[lamp] ?? null,
  );
  return { ...after, lampDistanceMm: distances };
}

/** The set-up as it stands for a take that follows the others after moves; as entered where a new set-up begins with it. */
export function setupAtNextTake(takes: readonly StandingTake[], next: Omit<StandingTake, 'id'>): Setup {
  return setupAtTake([...takes, { ...next, id: '' }], '');
}

/** The set-up after moves: each lamp's distance times the ratios done, and the frame as wide as it was framed. */
export function setupAfter(setup: Setup, done: readonly Move[]): Setup {
  const framed = done.findLast((move) => move.kind === 'frame-tighter');
  const lampDistanceMm = [...setup.lampDistanceMm];
  for (const move of done) {
    if (move.kind !== 'lamp-distance') continue;
    const present = lampDistanceMm[move.lamp] ?? null;
    if (present === null) continue;
    lampDistanceMm[move.lamp] = move.ratio === null ? null : present * move.ratio;
  }
  const moved = { ...setup, lampDistanceMm };
  return framed === undefined ? moved : framedTighter(moved, framed.right - framed.left);
}

/** Whether by a longer lens or from nearer is not known, nor where its middle lies in the room. */
function framedTighter(setup: Setup, share: number): Setup {
  const { frameWidthMm, room } = setup;
  return {
    ...setup,
    frameWidthMm: frameWidthMm === null ? null : share * frameWidthMm,
    cameraDistanceMm: null,
    room: { ...room, leftMm: null, rightMm: null, upMm: null, downMm: null },
  };
}
