import type { AimedReading } from '../../engine/aims/aimed-reading.ts';
import type { CleanWhite } from '../../engine/aims/clean-white.ts';
import type { Falloff, Judgement, Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { stops } from './figures.ts';
import { digitsApart, foundAndAsked } from './judged-words.ts';
import { trimmed } from './tolerance-words.ts';

/** A verdict that is read from across the room. */
export interface SignWords {
  /** The shorter the larger. */
  readonly verdict: string;
  readonly found: string;
  readonly limit: string;
  /** What else keeps the frame from being right; `null` where nothing does. */
  readonly also: string | null;
}

/** A verdict in a word or two, where it is what was asked for. */
const MET = { even: 'Even', 'clean-white': 'Clean white', ramp: 'As asked' } as const;
const SHORT: Record<Exclude<Judgement, 'yes'>, string> = {
  no: 'Not yet',
  'too-close-to-say': 'Too close to say',
};

/** By what the light is to become: `aimed` is what it is worth for an aim other than an even background. */
export function signWords(
  { verdict, falloff }: Pick<Reading, 'verdict' | 'falloff'>,
  tolerance: Tolerance,
  aimed: AimedReading | null = null,
): SignWords {
  const judged = aimed === null ? verdict.even : aimed.verdict;
  const also = [
    verdict.neutral === 'no' ? 'not neutral' : null,
    verdict.exposed === 'no' ? 'the exposure hides some of it' : null,
  ].filter((words) => words !== null);
  return {
    verdict: judged === 'yes' ? MET[aimed?.kind ?? 'even'] : SHORT[judged],
    ...(aimed?.kind === 'clean-white' ? overWhite(aimed) : leftOver(aimed?.leftOver ?? falloff, tolerance)),
    also: also.length === 0 ? null : also.join('; '),
  };
}

function overWhite({ overEv, isOverAtLeast, isUnlitInPart, aim: { mostOverEv } }: CleanWhite) {
  const limit = `limit ${trimmed(mostOverEv, 2)}`;
  if (overEv === null) return { found: 'no light in one colour', limit };
  const digits = digitsApart(overEv, mostOverEv, 1);
  return {
    found: `${isOverAtLeast || isUnlitInPart ? 'at least ' : ''}${stops(overEv, digits)} over white`,
    limit,
  };
}

function leftOver(falloff: Omit<Falloff, 'evMap'>, tolerance: Tolerance) {
  const { found, asked } = foundAndAsked(falloff, tolerance);
  const isMost = tolerance.measure === 'range' || tolerance.measure === 'from-centre';
  const bound = falloff.isLowerBound ? (isMost ? 'at least ' : 'at most ') : '';
  return { found: `${bound}${found}`, limit: `limit ${asked}` };
}
