import type { StudioSet } from '../studio/studio-set.ts';
import type { Draws } from './draws.ts';
import type { CauseFacts } from './planted-cause.ts';

/** A set with one more fault, and what the fault is. */
export interface Planted {
  readonly set: StudioSet;
  readonly facts: CauseFacts;
}

/** Gives a set a fault: a gross one where it leads, a slight one where it accompanies another. */
export type Planter = (set: StudioSet, draws: Draws, leads: boolean) => Planted;
