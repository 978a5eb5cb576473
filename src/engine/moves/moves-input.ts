import type { DiagnosisInput } from '../diagnosis/diagnosis-input.ts';
import type { Within } from '../diagnosis/within.ts';
import type { Finding, Verdict } from '../reading.ts';

/** What the moves are drawn from: the measurement and all that has been said about it. */
export interface MovesInput extends DiagnosisInput {
  readonly findings: readonly Finding[];
  readonly within: Within;
  readonly verdict: Verdict;
}
