import type { FoundSet } from '../lamps/carried-start.ts';
import type { EarlierTake } from '../lamps/earlier-take.ts';
import type { SetSamples } from '../lamps/set-samples.ts';
import type { Setup } from '../setup.ts';
import { changeMade } from './change-made.ts';
import type { Move } from './move.ts';

/** An earlier take of the same set-up, and the moves that were made after it. Structured-cloneable. */
export interface TakenBefore {
  /** `null` of a take too far back to be fitted together with the present one: what was done then counts alone. */
  readonly samples: SetSamples | null;
  /** The set-up as it stood for it. */
  readonly setup: Setup;
  /** The sets that explained it, likeliest first. */
  readonly found: readonly FoundSet[];
  /** Made between it and the next take. */
  readonly done: readonly Move[];
  /** What was advised at it; where less was done, the room went no farther. */
  readonly advised?: readonly Move[];
}

/** Frames whose height over width differs by more than this show another part of the background. */
const SAME_SHAPE = 0.01;

/** Rounds are measured with as many; of a long series of frames the oldest add nothing but time. */
export const MOST_TOGETHER = 5;

/**
 * The takes, oldest first, that a later one of that shape (height over width) can be fitted together with: back to
 * the last one that shows another part of the background, or after which it is not known what was changed, and no more
 * than the five newest.
 */
export function fittedTogether(takes: readonly TakenBefore[], aspect: number): EarlierTake[] {
  const together: EarlierTake[] = [];
  for (const { samples, setup, found, done } of takes.toReversed()) {
    if (samples === null || together.length === MOST_TOGETHER) break;
    const change = changeMade(done, setup);
    if (change === null || Math.abs(samples.aspect / aspect - 1) > SAME_SHAPE) break;
    together.unshift({ samples, change, found });
  }
  return together;
}
