import type { DiagnosisInput } from '../diagnosis/diagnosis-input.ts';
import type { Within } from '../diagnosis/within.ts';
import type { Finding, Verdict } from '../reading.ts';
import type { TakenBefore } from './taken-before.ts';

/** What the moves are drawn from: the measurement and all that has been said about it. */
export interface MovesInput extends DiagnosisInput {
  readonly findings: readonly Finding[];
  readonly within: Within;
  readonly verdict: Verdict;
  /** Earlier takes of the same set-up, oldest first: they tell where the room ended. */
  readonly earlierTakes?: readonly TakenBefore[];
  /** What a spread of so many stops may be wrong by because the file's light is in doubt; left out: nothing. */
  readonly doubtEv?: (spreadEv: number) => number;
}
