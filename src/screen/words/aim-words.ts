import type { Aim } from '../../engine/aim.ts';
import type { AimedReading } from '../../engine/aims/aimed-reading.ts';
import type { CleanWhite } from '../../engine/aims/clean-white.ts';
import type { JudgedRamp } from '../../engine/aims/judged-ramp.ts';
import type { Falloff, FrameRectangle, Judgement } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { decimals, percent, plusMinus, plusMinusStops, stops } from './figures.ts';
import { digitsApart, foundAndAsked, judgedPlusMinus } from './judged-words.ts';
import { stopsFigure } from './parse-stops.ts';
import { placeWords } from './place-words.ts';
import { trimmed } from './tolerance-words.ts';

export const AIM_KIND_WORDS: Record<Aim['kind'], string> = {
  even: 'even',
  'clean-white': 'clean white',
  ramp: 'a ramp',
};

/** An aim as it is first chosen. */
export const FIRST_AIM: { readonly [K in Aim['kind']]: Extract<Aim, { kind: K }> } = {
  even: { kind: 'even' },
  'clean-white': { kind: 'clean-white', whiteCode: null, mostOverEv: 1 },
  ramp: { kind: 'ramp', angleDeg: 270, ev: 2 },
};

/** Where a ramp is brighter, clockwise from "to the right" in eighths of a turn. */
export const RAMP_SIDES = [
  'right',
  'bottom right',
  'bottom',
  'bottom left',
  'left',
  'top left',
  'top',
  'top right',
] as const;

/** "top right", or "300° clockwise from the right" where no word fits. */
export function sideWords(angleDeg: number): string {
  const eighths = (((angleDeg % 360) + 360) % 360) / 45;
  const side = Number.isInteger(eighths) ? RAMP_SIDES[eighths] : undefined;
  return side === undefined ? `side ${trimmed(angleDeg, 1)}° clockwise from the right` : side;
}

/** What is said beside the moves where they lead to something else than the aim; `null` for an even background. */
export const MOVES_FOR_AIM: Record<Aim['kind'], string | null> = {
  even: null,
  'clean-white':
    'The moves below make the light more even: each stop that they take off is one less that the hottest lies over paper white.',
  ramp: 'No moves are told: those that are known lead to an even background, and what leads to a ramp is not modelled. Move a light, shoot again, and see what is left over.',
};

/** The verdict on an even background, said after that on another aim. */
export function evenTooWords(even: string): string {
  const inOneLine = even.replace(': ', ', ');
  return `As an even background: ${inOneLine.charAt(0).toLowerCase()}${inOneLine.slice(1)}`;
}

/** Beside the overshoot that is allowed. */
export const OVERSHOOT_PRACTICE =
  'About one stop over is commonly held to be enough; more flares round the subject and eats its edges. Common practice, no published source.';

/** What the light is worth for the aim, in the order of saying. */
export interface AimSentences {
  readonly verdict: string;
  readonly plusMinus: string | null;
  readonly more: readonly string[];
  /** What the trade says of it, and that nobody published it; `null` where nothing is to be said. */
  readonly practice: string | null;
}

export function aimSentences(
  aimed: AimedReading,
  tolerance: Tolerance,
  region: FrameRectangle,
): AimSentences {
  return aimed.kind === 'ramp' ? rampSentences(aimed, tolerance, region) : cleanWhiteSentences(aimed);
}

const UNLIT = 'one colour has no light to speak of, which no exposure brings to paper white';

function cleanWhiteSentences(aimed: CleanWhite): AimSentences {
  const { changeEv, overEv, overPlusMinusEv, isOverAtLeast, isUnlitInPart, aim, verdict } = aimed;
  if (changeEv === null || overEv === null)
    return {
      verdict: `Too close to say whether it can be clean white: ${UNLIT}.`,
      plusMinus: null,
      more: [reachedWords(aimed)],
      practice: OVERSHOOT_PRACTICE,
    };
  const isBound = isOverAtLeast || isUnlitInPart;
  const digits = digitsApart(overEv, aim.mostOverEv, 1);
  const over = `${isBound ? 'at least ' : ''}${stops(overEv, digits)} over it`;
  const opening: Record<Judgement, string> = {
    yes: 'Clean white is in reach: ',
    no: 'Not even enough for clean white: ',
    'too-close-to-say': 'Too close to say whether it can be clean white: ',
  };
  const brought =
    Math.abs(changeEv) < 0.05
      ? 'the darkest point just reaches paper white'
      : `with ${stops(Math.abs(changeEv))} ${changeEv > 0 ? 'more' : 'less'} the darkest point just reaches paper white`;
  return {
    verdict: `${opening[verdict]}${brought}, and the hottest is then ${over}; you allow ${stopsFigure(aim.mostOverEv)}.`,
    plusMinus: isBound ? null : plusMinusStops(overPlusMinusEv),
    more: [
      ...(isOverAtLeast
        ? [
            'Part of the frame is clipped, so how far the hottest lies over is a bound only: shoot it a stop below clipping to know.',
          ]
        : []),
      ...(isUnlitInPart ? [`In part of the frame ${UNLIT}: that part is left out of these figures.`] : []),
      reachedWords(aimed),
    ],
    practice: OVERSHOOT_PRACTICE,
  };
}

function reachedWords(aimed: CleanWhite): string {
  const { reachedShare, reachedShareLeast, reachedShareMost, aim, changeEv, changePlusMinusEv } = aimed;
  const from = aim.whiteCode === null ? '' : `, from code ${trimmed(aim.whiteCode, 1)} on`;
  const [least, most] = [percent(reachedShareLeast), percent(reachedShareMost)];
  const between = least === most ? '' : ` (${least} to ${most} with the\u00a0±)`;
  const share = reachedShare === 0 ? 'none' : percent(reachedShare);
  const asShot = `As shot, ${share} of it is paper white${between}${from}`;
  if (changeEv === null) return `${asShot}.`;
  const pm = changePlusMinusEv === null ? '' : plusMinus(changePlusMinusEv, 2);
  const point = `${stops(Math.abs(changeEv))}${pm} ${changeEv >= 0 ? 'below' : 'over'} it`;
  return `${asShot}; its darkest point lies ${point}.`;
}

function rampSentences(
  { aim, leftOver, verdict, ...ramp }: JudgedRamp,
  tolerance: Tolerance,
  region: FrameRectangle,
): AimSentences {
  const falloff = leftOver as Falloff; // its map is not asked for
  const opening: Record<Judgement, string> = {
    yes: 'Your ramp: ',
    no: 'Not your ramp: ',
    'too-close-to-say': 'Too close to say whether it is your ramp: ',
  };
  const { asked } = foundAndAsked(falloff, tolerance);
  const measured = [
    ramp.turnDeg === null
      ? 'The light has no slope to speak of.'
      : `The light’s own slope is ${stops(aim.ev + ramp.moreEv)}${plusMinus(ramp.morePlusMinusEv, 2)} where you asked for ${stopsFigure(aim.ev)}, ${turnWords(ramp.turnDeg, ramp.turnPlusMinusDeg)}.`,
  ];
  const isSeen = falloff.spreadEv > falloff.plusMinusEv;
  const where = isSeen
    ? [
        `Against the ramp, ${placeWords(falloff.brightestAt, region)} is hottest and ${placeWords(falloff.darkestAt, region)} is down.`,
      ]
    : [];
  return {
    verdict: `${opening[verdict]}${leftOverWords(falloff, tolerance)} towards the ${sideWords(aim.angleDeg)}; you asked for ${asked}.`,
    plusMinus: judgedPlusMinus(falloff, tolerance),
    more: [...measured, ...where],
    practice: null,
  };
}

/** What is left over of a straight ramp, in the terms of the yardstick. */
function leftOverWords(falloff: Falloff, tolerance: Tolerance): string {
  const { found } = foundAndAsked(falloff, tolerance);
  const isLeast = falloff.isLowerBound;
  switch (tolerance.measure) {
    case 'range':
      return isLeast ? `at least ${found} off a straight one` : `within ${found} of a straight one`;
    case 'from-centre':
      return `${isLeast ? 'at least' : 'up to'} ${found} more or less than at the centre beside a straight one`;
    case 'min-over-mean':
      return `the darkest has ${isLeast ? 'at most ' : ''}${found} of the mean beside a straight one`;
    case 'nine-point-min-max':
      return `the darkest has ${isLeast ? 'at most ' : ''}${found} of the brightest of nine points beside a straight one`;
  }
}

function turnWords(turnDeg: number, plusMinusDeg: number | null): string {
  const degrees = decimals(Math.abs(turnDeg), 0);
  if (Number(degrees) === 0) return 'in the direction that you asked for';
  const pm = plusMinusDeg === null ? '' : `${plusMinus(plusMinusDeg, 0)}°`;
  return `turned ${degrees}°${pm} ${turnDeg > 0 ? 'clockwise' : 'anticlockwise'} from it`;
}

/** The aim in one line, for the record. */
export function aimWords(aim: Aim): string {
  switch (aim.kind) {
    case 'even':
      return 'even';
    case 'clean-white':
      return `clean white, ${aim.whiteCode === null ? 'where the file clips' : `from code ${trimmed(aim.whiteCode, 1)} on`}, the hottest at most ${stopsFigure(aim.mostOverEv)} ${aim.mostOverEv > 1 ? 'stops' : 'stop'} over it`;
    case 'ramp':
      return `a ramp of ${stopsFigure(aim.ev)} ${aim.ev > 1 ? 'stops' : 'stop'}, brighter towards the ${sideWords(aim.angleDeg)}`;
  }
}
