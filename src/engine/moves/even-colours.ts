import { cautionForGel } from './cautions.ts';
import { GELS } from './gel-strengths.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/** A gel that takes less than this off the difference is not worth cutting, in mired. Own choice. */
const LEAST_TAKEN_MIRED = 5;
/** Lights that are surely farther apart than this are of unequal colour, though something else tints more. Own choice. */
const SURELY_APART_MIRED = 10;

/**
 * A gel on one of two lights of unequal colour: orange on the cooler or blue on the warmer, in the strength sold that
 * leaves least between them. Nothing where that would leave about as much, or the difference is not told. Where it is
 * not told, but sure, the gel has to make the frame's tint less too. `lessensTint`: whether it would.
 */
export function evenColours(
  { findings, set, setup }: MovesInput,
  lessensTint: (lamp: number, miredShift: number) => boolean,
): Move | null {
  if (set?.balance == null) return null;
  const { value: apart, plusMinus } = set.balance.mired; // how much warmer light 0 is
  const isTold = findings.some(({ kind }) => kind === 'unequal-colour');
  if (!isTold && Math.abs(apart) - plusMinus <= SURELY_APART_MIRED) return null;
  const choices = GELS.map(({ mired }) => {
    const isWarming = mired > 0;
    const lamp = isWarming === apart > 0 ? 1 : 0;
    return { lamp, mired, leaves: apart + (lamp === 0 ? mired : -mired) };
  });
  const best = choices.toSorted((a, b) => Math.abs(a.leaves) - Math.abs(b.leaves))[0]!;
  if (Math.abs(apart) - Math.abs(best.leaves) < LEAST_TAKEN_MIRED) return null;
  if (!isTold && !lessensTint(best.lamp, best.mired)) return null;
  return {
    kind: 'gel',
    lamp: best.lamp,
    miredShift: best.mired,
    duvShift: 0,
    leavesMired: Math.abs(best.leaves),
    bringsEv: null,
    toward: null,
    caution: cautionForGel(setup.light),
  };
}
