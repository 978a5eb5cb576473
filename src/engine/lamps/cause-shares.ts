import { mean } from '../numeric/mean.ts';
import type { FittedSet } from './fit-set.ts';
import { likelySets } from './likely-sets.ts';
import type { LitSet } from './lit-set.ts';
import { emptySampleLight, sampleLighter } from './sample-light.ts';
import { MODELLED_CAUSES, type ModelledCause, takenOut } from './taken-out.ts';

/** What one cause takes of the evenness and of the colour, and how far the frame bears that out. */
export interface CauseShare {
  readonly cause: ModelledCause;
  /** Fall in the spread when it alone is taken out of the best set; below 0 where it hides another. */
  readonly ev: number;
  /** Half-width of the 95 % interval over what the frame leaves possible. */
  readonly plusMinusEv: number;
  /** Fall in the largest distance of colour from the mean, in u′v′. */
  readonly deltaUv: number;
  /** Share of the likely sets in which it takes more than is worth telling, 0 to 1. */
  readonly confidence: number;
}

/** What is worth telling: these are the least shares of a cause, in stops and in u′v′. */
export interface LeastShare {
  readonly ev: number;
  readonly deltaUv: number;
}

/** Causes that may matter by their colour alone. */
const COLOURS: ReadonlySet<ModelledCause> = new Set([
  'stray-light',
  'unequal-colour',
  'lens-colour',
  'tinted-on-one-side',
]);

const DRAWN_SETS = 48;

/** Spots over the region, its outermost cells among them, where spreads are compared. */
export interface SpreadSpots {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** The shares of every cause that the arrangement can have. */
export function causeShares(fitted: FittedSet, spots: SpreadSpots, least: LeastShare): CauseShare[] {
  const sets = likelySets(fitted, DRAWN_SETS);
  const spreadOf = spreadTaker(spots);
  const wholes = sets.map(spreadOf);
  return MODELLED_CAUSES.flatMap((cause) => {
    if (takenOut(fitted.set, cause) === null) return [];
    const shares = sets.map((set, i) => {
      const without = spreadOf(takenOut(set, cause)!);
      return { ev: wholes[i]!.ev - without.ev, deltaUv: wholes[i]!.deltaUv - without.deltaUv };
    });
    const telling = shares.filter(
      ({ ev, deltaUv }) => ev > least.ev || (COLOURS.has(cause) && deltaUv > least.deltaUv),
    ).length;
    return [
      {
        cause,
        ev: shares[0]!.ev,
        plusMinusEv: 1.96 * deviation(shares.map(({ ev }) => ev)),
        deltaUv: shares[0]!.deltaUv,
        confidence: telling / shares.length,
      },
    ];
  });
}

/** The spread of a set's light over spots, in stops, and of its colour from the mean, in u′v′. */
function spreadTaker(spots: SpreadSpots): (set: LitSet) => { ev: number; deltaUv: number } {
  const count = spots.x.length;
  const lighter = sampleLighter(spots);
  const light = emptySampleLight(count);
  return (set) => {
    lighter(set, light);
    let [low, high, meanU, meanV] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, 0];
    for (let i = 0; i < count; i++) {
      low = Math.min(low, light.ev[i]!);
      high = Math.max(high, light.ev[i]!);
      meanU += light.uPrime[i]! / count;
      meanV += light.vPrime[i]! / count;
    }
    let deltaUv = 0;
    for (let i = 0; i < count; i++)
      deltaUv = Math.max(deltaUv, Math.hypot(light.uPrime[i]! - meanU, light.vPrime[i]! - meanV));
    return { ev: high - low, deltaUv };
  };
}

function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
}
