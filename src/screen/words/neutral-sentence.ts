import type { Cast, Judgement, Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { chromaticity, decimals, plusMinus } from './figures.ts';
import { hidesLight } from './hidden-light.ts';
import { digitsApart } from './judged-words.ts';
import { colourFigure } from './tolerance-words.ts';
import { greenDifference, warmthDifference } from './warmth.ts';

const OPENING: Record<Judgement, string> = {
  yes: 'Neutral enough',
  no: 'Not neutral',
  'too-close-to-say': 'Too close to say whether it is neutral',
};

/** Neutral means both: on the whole, and no part unlike the rest. Which of them fails is said first. */
export function neutralSentence(reading: Reading, tolerance: Tolerance): string {
  const { cast, tint, verdict } = reading;
  const isClose = verdict.neutral === 'too-close-to-say';
  const known = hidesLight(reading) ? ', as far as it is not clipped' : '';
  const opening = OPENING[verdict.neutral];
  const isCastSure = cast.deltaUv + cast.plusMinusDeltaUv <= tolerance.castDeltaUv;
  const closeCast = isClose && !isCastSure ? `, ${against(cast, tolerance.castDeltaUv)}` : '';
  const whole = `${wholeCast(cast)}${closeCast}`;
  if (tint.spreadDeltaUv + tint.plusMinusDeltaUv <= tolerance.tintDeltaUv)
    return `${opening}${known}: ${whole}.`;
  const { spreadDeltaUv: deltaUv, plusMinusDeltaUv } = tint;
  const [found, asked] = foundAndAsked(
    { deltaUv, plusMinusDeltaUv: isClose ? plusMinusDeltaUv : null },
    tolerance.tintDeltaUv,
  );
  const unlike = `${found} Δu′v′ from the mean; you asked for ${asked}`;
  if (isCastSure)
    return `${opening} all over${known}: the colour differs by up to ${unlike}. On the whole: ${whole}.`;
  return `${opening}${known}: ${whole}. Within the frame it differs by up to ${unlike}.`;
}

/** The cast by its parts that are larger than their ±; by its distance where it has none that a word fits. */
function wholeCast({ mired, duv, deltaUv, plusMinusMired, plusMinusDuv, plusMinusDeltaUv }: Cast): string {
  if (deltaUv <= plusMinusDeltaUv) return 'no cast that this frame can tell';
  const parts = [
    mired === null || Math.abs(mired) <= (plusMinusMired ?? 0) ? null : warmthDifference(mired),
    duv === null || Math.abs(duv) <= (plusMinusDuv ?? 0) ? null : greenDifference(duv),
  ].filter((part) => part !== null);
  if (parts.length > 0) return `${parts.join(' and ')} than the white of the file`;
  return `${chromaticity(deltaUv)} Δu′v′ from the white of the file`;
}

function against(cast: Cast, limit: number): string {
  const [found, asked] = foundAndAsked(cast, limit);
  return `${found} Δu′v′ in all; you asked for ${asked}`;
}

/** A distance in u′v′, with its ± where there is one, told apart from its limit. */
function foundAndAsked(
  { deltaUv, plusMinusDeltaUv }: { deltaUv: number; plusMinusDeltaUv: number | null },
  limit: number,
): [found: string, asked: string] {
  const digits = digitsApart(deltaUv, limit, 4);
  return [`${decimals(deltaUv, digits)}${plusMinus(plusMinusDeltaUv, 4)}`, colourFigure(limit)];
}
