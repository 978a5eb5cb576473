import { findings } from '../../../src/engine/diagnosis/findings.ts';
import { judge } from '../../../src/engine/diagnosis/verdict.ts';
import { within } from '../../../src/engine/diagnosis/within.ts';
import type { MovesInput } from '../../../src/engine/moves/moves-input.ts';
import type { Finding } from '../../../src/engine/reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { diagnosisOf } from '../diagnosis/measurement-of.ts';

export type Field = Parameters<typeof diagnosisOf>[0];

/** Everything that moves are drawn from, of a known field and no set. */
export function movesInputOf(field: Field, setup: Partial<Setup> = {}): MovesInput {
  const input = diagnosisOf(field, { setup: { ...UNKNOWN_SETUP, ...setup } });
  const { measurement, tolerance, grid } = input;
  return {
    ...input,
    findings: findings(input),
    within: within({ ...grid, evMap: measurement.falloff.evMap }, tolerance),
    verdict: judge(measurement, tolerance, grid),
  };
}

/** A finding as it is told, surely. */
export const findingOf = (kind: Finding['kind'], ev: number | null = null): Finding => ({
  ...{ kind, confidence: 1, ev, mired: null, at: null, says: '', lengthsMm: null },
});
