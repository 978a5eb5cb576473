import type { TrueShare } from '../../synthetic/random/true-shares.ts';
import { foundStrength, TIE, trueStrength } from './cause-strength.ts';
import { namedCauses } from './named-causes.ts';
import type { StudioReading } from './studio-frames.ts';

/** How the strongest planted cause was named first, or tied first: outright, as one of two not told apart, or not. */
export type NamedHow = 'outright' | 'cannot-tell' | 'not';

/** Those planted that are the strongest, or within a tie of it. */
export function leadsOf(truth: readonly TrueShare[]): TrueShare[] {
  const planted = truth.filter(({ isPlanted }) => isPlanted);
  const strongest = Math.max(...planted.map(trueStrength));
  return planted.filter((share) => trueStrength(share) >= strongest - TIE);
}

/** Whether a lead is among what is told first, or within a tie of it; told outright, that counts before `cannot-tell`. */
export function namedFirst(
  truth: readonly TrueShare[],
  reading: Pick<StudioReading, 'findings' | 'frame' | 'set'>,
): NamedHow {
  const leads = leadsOf(truth);
  const named = namedCauses(reading.findings);
  const first = named[0] && foundStrength(named[0].finding, reading);
  if (first === undefined) return 'not';
  const right = named
    .filter(({ finding }, i) => i === 0 || foundStrength(finding, reading) >= first - TIE)
    .filter(({ causes }) => leads.some(({ kind }) => causes.includes(kind)));
  if (right.length === 0) return 'not';
  return right.some(({ finding }) => finding.kind !== 'cannot-tell') ? 'outright' : 'cannot-tell';
}
