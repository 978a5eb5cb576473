import type { Estimate } from '../../engine/lamps/estimate.ts';
import type { FoundLight } from '../../engine/lamps/set-reading.ts';
import type { Setup } from '../../engine/setup.ts';
import type { FoundSpill } from '../../plots/plan-input.ts';
import { isDistanceFound } from '../../plots/plan-lengths.ts';
import { componentSeen, type PlanSide } from '../../plots/plan-projection.ts';
import { decimals, percent, plusMinus } from './figures.ts';
import { type LengthUnit, lengthWords, MM_PER } from './length-words.ts';
import { warmthDifference } from './warmth.ts';

const NO_BREAK = '\u00a0';

/** How lengths on a plan are told: in the unit of the page, or in parts of the frame where its width is unknown. */
export interface PlanMeasure {
  readonly setup: Setup;
  readonly seenFrom: PlanSide;
  readonly unit: LengthUnit;
}

/** What lights stand behind or in front of. */
export const SURFACE_WORDS: Record<Setup['arrangement'], string> = {
  'behind-sheet': 'the sheet',
  bounced: 'the wall',
  'two-lamps': 'the background',
  panel: 'the panel',
};

/** "11 ± 2 cm left, 59 ± 12 cm behind": a light found, as it stands beside its outline. */
export function foundLightNote(light: FoundLight, lamp: number, measure: PlanMeasure): string {
  const along = alongOf(light, measure.seenFrom);
  const side = sideOf(along, measure);
  const place =
    side === null ? `in the middle${givenShort(along, measure)}` : `${figureShort(along, measure)} ${side}`;
  const behind = isBehind(measure) ? 'behind' : 'in front';
  if (isDistanceFound(light)) {
    const entered = enteredInstead(light, lamp, measure);
    const aside = entered === null ? '' : `, entered as ${entered}`;
    return `${place}, ${figureShort(light.distance, measure)} ${behind}${aside}`;
  }
  const entered = measure.setup.lampDistanceMm[lamp] ?? null;
  return `${place}, ${entered === null ? 'distance not known' : `${lengthWords(entered, measure.unit)} ${behind}`}`;
}

/** A light found in a sentence: "stands about 11 cm left of the middle, give or take 2 cm, and …". */
export function foundLightSentence(light: FoundLight, lamp: number, measure: PlanMeasure): string {
  const along = alongOf(light, measure.seenFrom);
  const aim = measure.seenFrom === 'above' ? light.aimRight : light.aimDown;
  const place = `${middleWords(along, measure)}, ${giveOrTake(along, measure)}`;
  return `stands ${place}, and ${distanceSentence(light, lamp, measure)}; it points ${pointed(aim, along.plusMinus, measure)}`;
}

/** "spill, 14 % of the light, warmer". */
export function spillNote({ share, mired }: FoundSpill): string {
  const colour = Math.abs(mired.value) > mired.plusMinus ? (mired.value > 0 ? ', warmer' : ', cooler') : '';
  return `spill, ${percent(share.value)} of the light${colour}`;
}

/** "spill from the left: 14 % of the light in the middle, give or take 3 %, 55 mired cooler (…) than the light". */
export function spillSentence({ share, mired, fromDeg }: FoundSpill, seenFrom: PlanSide): string {
  const warmth = Math.abs(mired.value) > mired.plusMinus ? warmthDifference(mired.value) : null;
  const colour = warmth === null ? '' : `, ${warmth} than the light`;
  const from = fromDeg === null ? 'all around' : `the ${spillSide(fromDeg, seenFrom)}`;
  return `spill from ${from}: ${percent(share.value)} of the light in the middle, give or take ${percent(share.plusMinus)}${colour}`;
}

/** "The spill, from the top, is not seen from above."; `null` where it is, and where there is none. */
export function hiddenSpill(spill: FoundSpill | null, seenFrom: PlanSide): string | null {
  if (spill === null || spill.fromDeg === null || componentSeen(spill.fromDeg, seenFrom) !== 0) return null;
  const [other, view] =
    seenFrom === 'above' ? (['side', 'above'] as const) : (['above', 'the side'] as const);
  return `The spill, from the ${spillSide(spill.fromDeg, other)}, is not seen from ${view}.`;
}

function spillSide(fromDeg: number, seenFrom: PlanSide): string {
  const [less, more] = seenFrom === 'above' ? ['left', 'right'] : ['top', 'bottom'];
  return componentSeen(fromDeg, seenFrom) < 0 ? less! : more!;
}

function alongOf({ right, down }: FoundLight, seenFrom: PlanSide): Estimate {
  return seenFrom === 'above' ? right : down;
}

/** "left", "below"; `null` where the figure as told is 0. */
function sideOf({ value, plusMinus: give }: Estimate, measure: PlanMeasure): string | null {
  if (Number(figure(value, give, measure)) === 0) return null;
  if (measure.seenFrom === 'above') return value < 0 ? 'left' : 'right';
  return value < 0 ? 'above' : 'below';
}

function middleWords(along: Estimate, measure: PlanMeasure): string {
  const side = sideOf(along, measure);
  if (side === null) return 'in the middle';
  const about = `about ${figure(along.value, along.plusMinus, measure)} ${unitWords(measure)}`;
  return `${about} ${side}${measure.seenFrom === 'above' ? ' of' : ''} the middle`;
}

function pointed(aim: number, give: number, measure: PlanMeasure): string {
  const words = middleWords({ value: aim, plusMinus: give }, measure);
  return words === 'in the middle' ? 'at the middle' : words;
}

function distanceSentence(light: FoundLight, lamp: number, measure: PlanMeasure): string {
  const { setup, unit } = measure;
  const surface = SURFACE_WORDS[setup.arrangement];
  const behind = isBehind(measure) ? `behind ${surface}` : `in front of ${surface}`;
  const entered = setup.lampDistanceMm[lamp] ?? null;
  if (!isDistanceFound(light))
    return entered === null
      ? 'at a distance not known'
      : `${lengthWords(entered, unit)} ${behind} as entered`;
  const { value, plusMinus: give } = light.distance;
  const instead = enteredInstead(light, lamp, measure);
  const aside = instead === null ? '' : ` (entered as ${instead})`;
  return `${figure(value, give, measure)} ${unitWords(measure)} ${behind}, ${giveOrTake(light.distance, measure)}${aside}`;
}

/** The distance as entered, where it lies beyond the ± of the one found. */
function enteredInstead({ distance }: FoundLight, lamp: number, { setup, unit }: PlanMeasure): string | null {
  const entered = setup.lampDistanceMm[lamp] ?? null;
  if (entered === null || setup.frameWidthMm === null) return null;
  const off = Math.abs(entered / setup.frameWidthMm - distance.value);
  return off > distance.plusMinus ? lengthWords(entered, unit) : null;
}

function isBehind({ setup }: PlanMeasure): boolean {
  return setup.arrangement === 'behind-sheet';
}

function giveOrTake({ plusMinus: give }: Estimate, measure: PlanMeasure): string {
  return `give or take ${leastFigure(give, measure)} ${unitWords(measure)}`;
}

/** "11 ± 2 cm", of which no part is parted from another. */
function figureShort({ value, plusMinus: give }: Estimate, measure: PlanMeasure): string {
  return `${figure(value, give, measure)}${givenShort({ value, plusMinus: give }, measure)}`;
}

/** " ± 2 cm", of which only a whole word may stand on the next line. */
function givenShort({ plusMinus: give }: Estimate, measure: PlanMeasure): string {
  const [inUnit, digits] = told(give, measure);
  const space = measure.setup.frameWidthMm === null ? ' ' : NO_BREAK;
  return `${NO_BREAK}${plusMinus(inUnit, digits).trim()}${space}${unitWords(measure)}`;
}

/** The bare size of a length given in frame widths, to as many digits as its ± bears. */
function figure(widths: number, give: number, measure: PlanMeasure): string {
  return decimals(Math.abs(told(widths, measure)[0]), told(give, measure)[1]);
}

function leastFigure(give: number, measure: PlanMeasure): string {
  const [inUnit, digits] = told(give, measure);
  return inUnit < 10 ** -digits / 2 ? `under ${decimals(10 ** -digits, digits)}` : decimals(inUnit, digits);
}

/** A length given in frame widths in the unit it is told in, and its digits where it is a ±. */
function told(widths: number, { setup, unit }: PlanMeasure): readonly [inUnit: number, digits: number] {
  if (setup.frameWidthMm === null) return [widths, 2];
  const inUnit = (widths * setup.frameWidthMm) / MM_PER[unit];
  return [inUnit, inUnit < 1 ? 1 : 0];
}

function unitWords({ setup, unit }: PlanMeasure): string {
  return setup.frameWidthMm === null ? 'frame' : unit;
}
