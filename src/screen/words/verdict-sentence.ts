import type { Cast, Judgement, Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { chromaticity, decimals, percent, plusMinusStops, stops } from './figures.ts';
import { placeWords } from './place-words.ts';
import { greenDifference, kelvinAside, warmthDifference } from './warmth.ts';

/** The verdict in words, in the order of saying. */
export interface VerdictSentences {
  /** How even, against what was asked. */
  readonly even: string;
  readonly plusMinus: string;
  /** Why the rest may be worth little; `null` where nothing stands in the way. */
  readonly caveat: string | null;
  /** Where it is hottest and where it is down. */
  readonly where: string;
  readonly neutral: string;
  /** What the exposure hides; `null` where it hides nothing. */
  readonly exposed: string | null;
}

export function verdictSentence(reading: Reading, tolerance: Tolerance): VerdictSentences {
  return {
    even: evenSentence(reading, tolerance),
    plusMinus: plusMinusStops(reading.falloff.plusMinusEv),
    caveat: caveatSentence(reading),
    where: whereSentence(reading),
    neutral: neutralSentence(reading, tolerance),
    exposed: exposedSentence(reading),
  };
}

/** A miss needs no opening: the two figures beside each other say it. */
const OPENING: Record<Judgement, string> = {
  yes: 'Even enough: ',
  no: '',
  'too-close-to-say': 'Too close to say: ',
};

function evenSentence({ falloff, verdict }: Reading, { measure, limit }: Tolerance): string {
  return capital(`${OPENING[verdict.even]}${foundAndAsked()}.`);

  function foundAndAsked(): string {
    if (measure === 'range') {
      const [found, asked] = stopsApart(falloff.spreadEv, limit, verdict.even !== 'yes');
      const least = falloff.isLowerBound ? 'at least' : 'within';
      return `${least} ${found} across the frame; you asked for ${asked}`;
    }
    if (measure === 'from-centre')
      return `up to ${percent(falloff.fromCentreMax)} from the centre; you asked for ${percent(limit)}`;
    const found = measure === 'min-over-mean' ? falloff.minOverMean : falloff.ninePointMinOverMax;
    const whole = measure === 'min-over-mean' ? 'the mean' : 'the brightest of nine points';
    return `the darkest has ${percent(found)} of ${whole}; you asked for ${percent(limit)}`;
  }
}

/** Tenths, and hundredths where tenths would print a miss and its limit alike. */
function stopsApart(found: number, asked: number, isMissed: boolean): [found: string, asked: string] {
  const digits = isMissed && found.toFixed(1) === asked.toFixed(1) ? 2 : 1;
  return [stops(found, digits), decimals(asked, digits === 2 || isTenth(asked) ? digits : 2)];
}

function isTenth(figure: number): boolean {
  return Math.abs(figure - Number(figure.toFixed(1))) < 0.001;
}

function caveatSentence({ findings }: Reading): string | null {
  if (!findings.some(({ kind }) => kind === 'not-blank')) return null;
  return 'Something stands in the frame: these figures are of the light and of it together.';
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
  const whole = wholeCast(cast);
  if (tint.spreadDeltaUv + tint.plusMinusDeltaUv <= tolerance.tintDeltaUv) return `${opening}: ${whole}.`;
  const unlike = `${chromaticity(tint.spreadDeltaUv)} Δu′v′ from the mean; you asked for ${chromaticity(tolerance.tintDeltaUv)}`;
  if (cast.deltaUv + cast.plusMinusDeltaUv <= tolerance.castDeltaUv)
    return `${opening} all over: the colour differs by up to ${unlike}. On the whole: ${whole}.`;
  return `${opening}: ${whole}. Within the frame it differs by up to ${unlike}.`;
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

function exposedSentence({ verdict, clipping }: Reading): string | null {
  if (verdict.exposed === 'yes') return null;
  const isSure = verdict.exposed === 'no';
  const parts = [];
  if (clipping.highlightShare > 0) parts.push(`${percent(clipping.highlightShare)} of it is clipped`);
  if (clipping.shadowShare > 0) parts.push(`${percent(clipping.shadowShare)} is blocked in the shadows`);
  if (parts.length > 0)
    return `The exposure ${isSure ? 'hides' : 'may hide'} some of the light: ${parts.join(' and ')}.`;
  return `It ${isSure ? 'is' : 'may be'} too dark for your limit: what noise and coding leave uncertain is too much of it.`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
