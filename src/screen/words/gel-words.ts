import { GELS } from '../../engine/moves/gel-strengths.ts';
import type { Move } from '../../engine/moves/move.ts';
import type { Setup } from '../../engine/setup.ts';
import { decimals } from './figures.ts';
import { lightWords } from './light-move-words.ts';
import { colourShift, kelvinAside } from './warmth.ts';

/** Less than this between two lights prints as nothing, in mired. */
const LEAST_LEFT_MIRED = 0.5;

/** Which gel goes on which light, by the strength it is sold in where it is one of those, and what it leaves. */
export function gelWords(move: Move & { kind: 'gel' | 'lamp-colour' }, setup: Setup): string {
  const { lamp, leavesMired = null } = move;
  const on = `on ${lightWords(lamp, setup)}`;
  return `Put ${gelName(move, on)}, bring its power back to the same level${leftWords(leavesMired)}.`;
}

function gelName(move: Move & { kind: 'gel' | 'lamp-colour' }, on: string): string {
  const { miredShift, duvShift } = move;
  const sold = duvShift === 0 ? GELS.find(({ mired }) => mired === miredShift) : undefined;
  if (sold === undefined) return `a gel of ${colourShift(move)} ${on}`;
  const way = miredShift > 0 ? 'warmer' : 'cooler';
  return `${article(sold.name)} ${sold.name} gel ${on} (${decimals(Math.abs(miredShift), 0)} mired ${way}, ${kelvinAside(miredShift)}; a trade value, makers’ differ)`;
}

const article = (name: string) => (/^[aeiou]/.test(name) ? 'an' : 'a');

function leftWords(mired: number | null): string {
  if (mired === null) return '';
  if (mired < LEAST_LEFT_MIRED) return '; next to nothing is left between the two';
  return `; about ${decimals(mired, 0)} mired are left between the two`;
}
