import { mean } from '../numeric/mean.ts';
import type { LitSet } from './lit-set.ts';
import { type SetSpread, type SpreadSpots, spreadTaker } from './set-spread.ts';
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
export const BY_COLOUR: ReadonlySet<ModelledCause> = new Set([
  'stray-light',
  'unequal-colour',
  'lens-colour',
  'tinted-on-one-side',
]);

/** Two causes that the frames cannot tell from each other, and what they take together. */
export interface RivalCauses {
  readonly causes: readonly [ModelledCause, ModelledCause];
  readonly ev: number;
  readonly plusMinusEv: number;
  /** Share of the likely sets in which they take more than is worth telling, 0 to 1. */
  readonly confidence: number;
}

/** Causes that look alike in one frame: those that lower the corners, and a light that stands aside or looks aside. */
const LOOK_ALIKE: readonly (readonly [ModelledCause, ModelledCause])[] = [
  ['lens-falloff', 'too-close'],
  ['lens-falloff', 'hot-spot'],
  ['too-close', 'hot-spot'],
  ['off-centre', 'aimed-off'],
];
/** Where a cause is there less surely than this, another one need not be weighed against it. Own choice. */
const POSSIBLE = 0.25;
/** What two causes take together is to be surer than this. Own choice. */
const SURE = 0.9;
/** Rivals trade against each other: apart they vary so much more than together. Own choice. */
const TRADE = 1.5;

/**
 * The shares of every cause that the arrangement can have, and those that cannot be told apart. `sets`: as likely as
 * the frames leave them, the best first.
 */
export function causeShares(
  sets: readonly LitSet[],
  spots: SpreadSpots,
  least: LeastShare,
): { causes: CauseShare[]; rivals: RivalCauses[] } {
  const spreadOf = spreadTaker(spots);
  const possible = MODELLED_CAUSES.filter((cause) => sets.some((set) => takenOut(set, cause) !== null));
  const pairs = LOOK_ALIKE.filter((pair) => pair.every((cause) => possible.includes(cause)));
  const fall = (set: LitSet, whole: SetSpread, out: readonly ModelledCause[]): SetSpread => {
    const without = out.reduce<LitSet>((left, cause) => takenOut(left, cause) ?? left, set);
    if (without === set) return { ev: 0, deltaUv: 0 };
    const spread = spreadOf(without);
    return { ev: whole.ev - spread.ev, deltaUv: whole.deltaUv - spread.deltaUv };
  };
  // set by set, so that light which taking out leaves alone is worked out once
  const taken = sets.map((set) => {
    const whole = spreadOf(set);
    return { whole, alone: possible.map((cause) => fall(set, whole, [cause])) };
  });
  const evOf = (shares: readonly { readonly ev: number }[]) => shares.map(({ ev }) => ev);
  const shares = new Map(possible.map((cause, i) => [cause, taken.map(({ alone }) => alone[i]!)]));
  const causes = possible.map((cause): CauseShare => {
    const own = shares.get(cause)!;
    const telling = own.filter(
      ({ ev, deltaUv }) => ev > least.ev || (BY_COLOUR.has(cause) && deltaUv > least.deltaUv),
    ).length;
    return {
      cause,
      ev: own[0]!.ev,
      plusMinusEv: 1.96 * deviation(evOf(own)),
      deltaUv: own[0]!.deltaUv,
      confidence: telling / own.length,
    };
  });
  const confidenceOf = (cause: ModelledCause) => causes.find((each) => each.cause === cause)?.confidence ?? 0;
  const rivals = pairs.flatMap((pair): RivalCauses[] => {
    if (!pair.every((cause) => confidenceOf(cause) > POSSIBLE)) return [];
    const together = evOf(sets.map((set, i) => fall(set, taken[i]!.whole, pair)));
    const apart = Math.max(...pair.map((cause) => deviation(evOf(shares.get(cause)!))));
    const confidence = together.filter((ev) => ev > least.ev).length / together.length;
    // known to less than is worth telling, nothing is left to ask of either
    if (!(confidence > SURE && apart > TRADE * deviation(together) && 1.96 * apart > least.ev)) return [];
    return [{ causes: pair, ev: mean(together), plusMinusEv: 1.96 * deviation(together), confidence }];
  });
  return { causes, rivals };
}

function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
}
