import type { Judgement, Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { chromaticity, decimals, percent, plusMinusStops, stops } from './figures.ts';
import { placeWords } from './place-words.ts';
import { greenDifference, kelvinAside, warmthDifference } from './warmth.ts';

/** The verdict in words: how even against what was asked, where it is hottest and down, how neutral, how exposed. */
export interface VerdictSentences {
  readonly even: string;
  readonly where: string;
  readonly neutral: string;
  readonly exposed: string | null;
  readonly plusMinus: string;
}

export function verdictSentence(reading: Reading, tolerance: Tolerance): VerdictSentences {
  return {
    even: evenSentence(reading, tolerance),
    where: whereSentence(reading),
    neutral: neutralSentence(reading, tolerance),
    exposed: exposedSentence(reading),
    plusMinus: plusMinusStops(reading.falloff.plusMinusEv),
  };
}

const OPENING: Record<Judgement, string> = {
  yes: 'Even enough: ',
  no: 'Not even enough: ',
  'too-close-to-say': 'Too close to say: ',
};

function evenSentence({ falloff, verdict }: Reading, { measure, limit }: Tolerance): string {
  const opening = OPENING[verdict.even];
  if (measure === 'range') {
    const [found, asked] = stopsApart(falloff.spreadEv, limit, verdict.even !== 'yes');
    const least = falloff.isLowerBound ? 'at least' : 'within';
    return `${opening}${least} ${found} across the frame; you asked for ${asked}.`;
  }
  if (measure === 'from-centre')
    return `${opening}up to ${percent(falloff.fromCentreMax)} from the centre; you asked for ${percent(limit)}.`;
  const found = measure === 'min-over-mean' ? falloff.minOverMean : falloff.ninePointMinOverMax;
  const whole = measure === 'min-over-mean' ? 'the mean' : 'the brightest of nine points';
  return `${opening}the darkest has ${percent(found)} of ${whole}; you asked for ${percent(limit)}.`;
}

/** Tenths, and hundredths where tenths would print a miss and its limit alike. */
function stopsApart(found: number, asked: number, isMissed: boolean): [found: string, asked: string] {
  const digits = isMissed && found.toFixed(1) === asked.toFixed(1) ? 2 : 1;
  return [stops(found, digits), decimals(asked, digits)];
}

function whereSentence({ falloff, gradient }: Reading): string {
  if (falloff.spreadEv <= falloff.plusMinusEv)
    return 'No spot is hotter than another, as far as this frame can tell.';
  const hottest = `Hottest ${inFrame(placeWords(falloff.brightestAt))}`;
  const down = placeWords(falloff.darkestAt);
  const { mired, plusMinusMired } = gradient;
  const isTold = mired !== null && Math.abs(mired) >= 1 && Math.abs(mired) > (plusMinusMired ?? 0);
  if (!isTold) return `${hottest}; ${down} is down.`;
  const warmth = mired > 0 ? 'cooler' : 'warmer'; // towards the darker side, against the gradient
  const figure = `${decimals(Math.abs(mired), 0)} mired (${kelvinAside(-mired)})`;
  return `${hottest}; ${down} is down and ${warmth}, by ${figure}.`;
}

function inFrame(place: string): string {
  if (place.endsWith('corner')) return `in ${place}`;
  return place.startsWith('the ') ? `at ${place}` : place;
}

const NEUTRAL_OPENING: Record<Judgement, string> = {
  yes: 'Neutral enough',
  no: 'Not neutral',
  'too-close-to-say': 'Too close to say whether it is neutral',
};

/** Neutral means both: on the whole, and no part unlike the rest. Which of them fails is said first. */
function neutralSentence({ cast, tint, verdict }: Reading, tolerance: Tolerance): string {
  const opening = NEUTRAL_OPENING[verdict.neutral];
  const parts = [
    cast.mired === null ? null : warmthDifference(cast.mired),
    cast.duv === null ? null : greenDifference(cast.duv),
  ].filter((part) => part !== null);
  const whole =
    parts.length > 0
      ? `${parts.join(' and ')} than the white of the file`
      : `${chromaticity(cast.deltaUv)} Δu′v′ from the white of the file`;
  if (tint.spreadDeltaUv + tint.plusMinusDeltaUv <= tolerance.tintDeltaUv) return `${opening}: ${whole}.`;
  const unlike = `${chromaticity(tint.spreadDeltaUv)} Δu′v′ from the mean; you asked for ${chromaticity(tolerance.tintDeltaUv)}`;
  if (cast.deltaUv + cast.plusMinusDeltaUv <= tolerance.castDeltaUv)
    return `${opening} all over: the colour differs by up to ${unlike}. On the whole it is ${whole}.`;
  return `${opening}: ${whole}. Within the frame it differs by up to ${unlike}.`;
}

function exposedSentence({ verdict, clipping }: Reading): string | null {
  if (verdict.exposed === 'yes') return null;
  const parts = [];
  if (clipping.highlightShare > 0) parts.push(`${percent(clipping.highlightShare)} of it is clipped`);
  if (clipping.shadowShare > 0) parts.push(`${percent(clipping.shadowShare)} is blocked in the shadows`);
  const found = parts.length > 0 ? `: ${parts.join(' and ')}` : '';
  if (verdict.exposed === 'no') return `The exposure hides some of it${found}.`;
  return `The exposure may hide some of it${found}.`;
}
