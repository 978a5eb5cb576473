import type { Judgement, Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { warmthBetween } from '../../plots/warmth-between.ts';
import { decimals, percent } from './figures.ts';
import { isNotBlank } from './hidden-light.ts';
import { foundAndAsked, judgedPlusMinus } from './judged-words.ts';
import { neutralSentence } from './neutral-sentence.ts';
import { atPlaceWords, placeWords } from './place-words.ts';
import { extentWords, isWholeFrame } from './region-words.ts';
import { kelvinAside } from './warmth.ts';

/** The verdict in words, in the order of saying. */
export interface VerdictSentences {
  /** How even, against what was asked. */
  readonly even: string;
  /** In the unit of the figure; `null` where that is a lower bound. */
  readonly plusMinus: string | null;
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
    plusMinus: judgedPlusMinus(reading.falloff, tolerance),
    caveat: isNotBlank(reading)
      ? 'Something stands in the frame: these figures are of the light and of it together.'
      : null,
    where: whereSentence(reading),
    neutral: neutralSentence(reading, tolerance),
    exposed: exposedSentence(reading),
  };
}

function evenSentence(reading: Reading, tolerance: Tolerance): string {
  const { falloff, region, verdict } = reading;
  const { found, asked, isNear } = foundAndAsked(falloff, tolerance);
  const opening = verdict.even === 'no' && isNear ? 'Not even enough: ' : openings(reading)[verdict.even];
  return capital(`${opening}${whatWasFound()}; you asked for ${asked}.`);

  function whatWasFound(): string {
    const isLeast = falloff.isLowerBound;
    switch (tolerance.measure) {
      case 'range':
        return `${isLeast ? 'at least' : 'within'} ${found} across ${extentWords(region)}`;
      case 'from-centre':
        return `${isLeast ? 'at least' : 'up to'} ${found} from the centre`;
      case 'min-over-mean':
        return `the darkest has ${isLeast ? 'at most ' : ''}${found} of the mean`;
      case 'nine-point-min-max':
        return `the darkest has ${isLeast ? 'at most ' : ''}${found} of the brightest of nine points`;
    }
  }
}

/** A plain miss needs no opening: the two figures beside each other say it. */
function openings(reading: Reading): Record<Judgement, string> {
  return {
    yes: isNotBlank(reading) ? 'Looks even enough: ' : 'Even enough: ',
    no: '',
    'too-close-to-say': 'Too close to say: ',
  };
}

function whereSentence(reading: Reading): string {
  const { falloff, region } = reading;
  const isSeen = falloff.spreadEv > falloff.plusMinusEv;
  if (!isSeen && !falloff.isLowerBound)
    return 'No spot is hotter than another, as far as this frame can tell.';
  const opening = isWholeFrame(region) ? '' : 'In the part read, ';
  const hottest = falloff.isLowerBound
    ? 'hottest somewhere in the clipped part'
    : `hottest ${atPlaceWords(falloff.brightestAt, region)}`;
  return capital(`${opening}${hottest}${isSeen ? downWords(reading) : ''}.`);
}

/** Where it is down; how its colour differs from the hottest spot's, where both are known and it is beyond its ±. */
function downWords(reading: Reading): string {
  const { falloff, region } = reading;
  const down = placeWords(falloff.darkestAt, region);
  if (falloff.isLowerBound) return `; ${down} is down`;
  const warmth = warmthBetween(reading, falloff.brightestAt, falloff.darkestAt);
  const isTold = warmth !== null && Math.abs(warmth.mired) >= Math.max(1, warmth.plusMinusMired);
  const colour = isTold
    ? ` and ${warmth.mired > 0 ? 'warmer' : 'cooler'}, by ${decimals(Math.abs(warmth.mired), 0)} mired (${kelvinAside(warmth.mired)})`
    : '';
  if (down === placeWords(falloff.brightestAt, region)) return `; close by it is down${colour}`;
  return `; ${down} is down${colour}`;
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
