import { CLIPPED_SHARE_BORNE } from '../diagnosis/clipped.ts';
import { below, judgeEven } from '../diagnosis/verdict.ts';
import type { Falloff, Judgement, Verdict } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';

/** What a feed's own colours may be off by, in u′v′: its matrix and range are not stated. Own allowance. */
export const FEED_DELTA_UV = 0.003;

interface LiveFigures {
  readonly falloff: Falloff;
  readonly tintDeltaUv: number;
  readonly castDeltaUv: number;
  readonly clippedShare: number;
}

/** Judges what a feed shows, as a frame is judged; until pictures have settled there is nothing to say of evenness. */
export function liveVerdict(figures: LiveFigures, isSettled: boolean, tolerance: Tolerance): Verdict {
  const neutral: Judgement[] = [
    below(figures.tintDeltaUv, FEED_DELTA_UV, tolerance.tintDeltaUv),
    below(figures.castDeltaUv, FEED_DELTA_UV, tolerance.castDeltaUv),
  ];
  return {
    even: isSettled ? judgeEven(figures.falloff, tolerance) : 'too-close-to-say',
    neutral: neutral.includes('no')
      ? 'no'
      : neutral.every((each) => each === 'yes')
        ? 'yes'
        : 'too-close-to-say',
    exposed: figures.clippedShare > CLIPPED_SHARE_BORNE ? 'no' : 'yes',
  };
}
