import { type Aim, EVEN } from '../engine/aim.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { MoveAnswers } from '../takes/move-answers.ts';
import type { HeldTake } from '../takes/take.ts';
import type { ShelvedShoot } from '../takes/take-shelf.ts';

/** A kept shoot as it was left. */
export interface OpenedShoot {
  /** The newest one in full. */
  readonly takes: readonly HeldTake[];
  /** What the takes were last judged by. */
  readonly tolerance: Tolerance;
  readonly aim: Aim;
  /** What became of the newest take's moves so far. */
  readonly answers: MoveAnswers;
}

/** What a shoot's entry says of its takes, and what it leaves out where nobody has said anything. */
export function openedShoot(entry: Omit<ShelvedShoot, 'id'>, takes: readonly HeldTake[]): OpenedShoot {
  const { tolerance, aim = EVEN, answers = [] } = entry;
  return { takes, tolerance, aim, answers };
}
