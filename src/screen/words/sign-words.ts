import type { Judgement, Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { foundAndAsked } from './judged-words.ts';

/** A verdict that is read from across the room. */
export interface SignWords {
  /** The shorter the larger. */
  readonly verdict: string;
  readonly found: string;
  readonly limit: string;
  /** What else keeps the frame from being right; `null` where nothing does. */
  readonly also: string | null;
}

const EVEN: Record<Judgement, string> = {
  yes: 'Even',
  no: 'Not yet',
  'too-close-to-say': 'Too close to say',
};

export function signWords(
  { verdict, falloff }: Pick<Reading, 'verdict' | 'falloff'>,
  tolerance: Tolerance,
): SignWords {
  const { found, asked } = foundAndAsked(falloff, tolerance);
  const isRange = tolerance.measure === 'range';
  const bound = falloff.isLowerBound
    ? isRange || tolerance.measure === 'from-centre'
      ? 'at least '
      : 'at most '
    : '';
  const also = [
    verdict.neutral === 'no' ? 'not neutral' : null,
    verdict.exposed === 'no' ? 'the exposure hides some of it' : null,
  ].filter((words) => words !== null);
  return {
    verdict: EVEN[verdict.even],
    found: `${bound}${found}`,
    limit: `limit ${asked}`,
    also: also.length === 0 ? null : also.join('; '),
  };
}
