import type { FoundSet } from './carried-start.ts';
import { asMade, slipsOf } from './hand-slips.ts';
import { type SetChange, setBefore } from './light-change.ts';
import type { LitSet } from './lit-set.ts';
import type { SetSamples } from './set-samples.ts';

/** An earlier frame of the same set, and what was changed after it, up to the next. Structured-cloneable. */
export interface EarlierTake {
  readonly samples: SetSamples;
  readonly change: SetChange;
  /** The sets that explained it and those before it, likeliest first. */
  readonly found: readonly FoundSet[];
}

/** How many figures hands may have missed in all changes since the first take. */
export function slipCount(takes: readonly EarlierTake[]): number {
  return takes.reduce((sum, { change }) => sum + slipsOf(change).length, 0);
}

/**
 * The set as it stood for an earlier take, from the set as it stands now: the changes since taken back, the last one
 * first, each as hands really made it by the set's slips.
 */
export function setAtTake(
  takes: readonly EarlierTake[],
  index: number,
  widthMm: number | null,
): (set: LitSet) => LitSet {
  const changes = takes.map(({ change }) => change);
  let used = 0;
  const places = changes.map((change) => {
    const from = used;
    const slips = slipsOf(change);
    used += slips.length;
    return new Map(slips.map((slip, i) => [slip, from + i]));
  });
  return (set) => {
    let stood = set;
    for (let i = takes.length - 1; i >= index; i--) {
      const change = changes[i]!;
      const before = stood.lights.map(({ distance }, lamp) => distance / (change.lights[lamp]?.ratio ?? 1));
      const slip = (at: number) => {
        const place = places[i]!.get(at);
        return place === undefined ? 0 : (set.slips?.[place] ?? 0);
      };
      stood = setBefore(stood, asMade(change, before, widthMm, slip));
    }
    return stood;
  };
}
