import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import { quantile } from '../numeric/quantile.ts';
import { solveSymmetric3 } from '../numeric/solve-symmetric3.ts';
import type { SourceColour } from './lit-set.ts';
import type { SetSamples } from './set-samples.ts';
import { COOLEST_MIRED } from './tristimulus.ts';

/** A guess at the spill: its light in the middle on the scale of the samples, and how it rises, in stops. */
export interface SpillGuess {
  readonly levelEv: number;
  readonly rightEv: number;
  readonly downEv: number;
}

/** Where the samples reach the lights' own colour: nearly at the end of them that the spill is not. */
const LIGHT_END = 0.03;
const LEAST_SHARE = 0.002;
const MOST_SHARE = 0.6;

/**
 * Spill that is so many mired from the lights, as the colours let it be: a mixture of two lights lies on the line
 * between them, so that the way along it is the spill's share. `null` where the colours do not tell.
 */
export function spillStart(
  { x, y, ev, uPrime, vPrime }: SetSamples,
  lights: SourceColour,
  spillMired: number,
): SpillGuess | null {
  const from = colourOfWarmth(lights.mired, lights.duv);
  const to = colourOfWarmth(Math.max(COOLEST_MIRED, lights.mired + spillMired), lights.duv);
  const [axisU, axisV] = [to.uPrime - from.uPrime, to.vPrime - from.vPrime];
  const length = Math.hypot(axisU, axisV);
  const along = uPrime.map((u, i) => (u * axisU + vPrime[i]! * axisV) / length);
  const pure = quantile(along, LIGHT_END);
  const [m, b] = [new Float64Array(6), new Float64Array(3)];
  for (let i = 0; i < x.length; i++) {
    const share = Math.min(MOST_SHARE, Math.max(LEAST_SHARE, (along[i]! - pure) / length));
    const spillEv = Math.log2(share) + ev[i]!;
    const terms = [1, x[i]!, y[i]!];
    let at = 0;
    for (let row = 0; row < 3; row++) {
      b[row]! += share * terms[row]! * spillEv;
      for (let column = 0; column <= row; column++) m[at++]! += share * terms[row]! * terms[column]!;
    }
  }
  const solved = solveSymmetric3([m[0]!, m[1]!, m[2]!, m[3]!, m[4]!, m[5]!], [b[0]!, b[1]!, b[2]!]);
  if (solved === null) return null;
  const [levelEv, rightEv, downEv] = solved;
  return { levelEv, rightEv, downEv };
}
