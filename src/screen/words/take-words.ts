import type { Falloff } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { judgedFigure } from '../../plots/judged-figure.ts';
import { areAsAdvised } from '../../takes/as-advised.ts';
import type { DeletedTake } from '../../takes/deleted-take.ts';
import { type HeldTake, type Take, takeNumber } from '../../takes/take.ts';
import { aimSentences } from './aim-words.ts';
import { decimals, percent, plusMinus, plusMinusPercent, stops } from './figures.ts';
import { figureOnLine, limitOnLine } from './judged-words.ts';
import { isAlternative } from './move-words.ts';
import { verdictSentence } from './verdict-sentence.ts';

/** Frames dropped together are not takes of their own. */
export const SEVERAL_FRAMES = 'Several frames of one unchanged set-up are averaged.';

/** The verdict of the take that is shown, short enough to be listened to. */
export function spokenVerdict(shown: HeldTake, tolerance: Tolerance): string {
  const aimed = shown.report?.aimed ?? null;
  const { reading } = shown;
  const says =
    aimed === null
      ? verdictSentence(reading, tolerance).even
      : aimSentences(aimed, tolerance, reading.region).verdict;
  return `Take ${takeNumber(shown)}: ${says}`;
}

/** The name of a take's file, and of how many more it is the mean. */
export function takeName({ reading: { frame } }: Take): string {
  const averaged = frame.averagedFrames > 1 ? ` and ${decimals(frame.averagedFrames - 1, 0)} more` : '';
  return `${frame.name}${averaged}`;
}

const DAY = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long' });
const TIME = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** "10:12", and the day where that is not today. */
export function shotWords(shotAt: number, now: number): string {
  const isToday = new Date(shotAt).toDateString() === new Date(now).toDateString();
  return isToday ? TIME.format(shotAt) : `${DAY.format(shotAt)}, ${TIME.format(shotAt)}`;
}

/** That a take was deleted, and what became of the moves before it. */
export function deletedWords({ take, next }: DeletedTake): string {
  const moves = take.done?.length ?? 0;
  const says = `Take ${takeNumber(take)} was deleted.`;
  if (moves === 0 || next?.done === null) return says;
  const made = moves === 1 ? 'The move made before it counts' : `The ${moves} moves made before it count`;
  return `${says} ${made} for ${next === null ? 'the next take' : `take ${takeNumber(next)}`}.`;
}

/** What went before a take. */
export function sinceWords({ done }: Take, isFirst: boolean): string {
  if (done === null) return isFirst ? 'first take' : 'new set-up';
  if (done.length === 0) return 'nothing moved';
  return done.length === 1 ? 'after one move' : `after ${done.length} moves`;
}

/** "1.3 stops ± 0.02": a take's figure as its tolerance judges it, never printed alike with a limit it misses. */
export function takeFigure(falloff: Falloff, tolerance: Tolerance): string {
  const { value, plusMinus: pm } = judgedFigure(falloff, tolerance);
  const { text, digits } = figureOnLine(value, tolerance);
  const isRange = tolerance.measure === 'range';
  const figure = isRange ? stops(value, digits) : text;
  if (falloff.isLowerBound) return `at least ${figure}`;
  return isRange ? `${figure}${plusMinus(pm, 2)}` : `${figure} ${plusMinusPercent(pm)}`;
}

/** What the take before foretold for this one, beside what came; `null` where it foretold nothing. */
export function foretoldWords(
  { done, reading, foretold: before }: Pick<HeldTake, 'done' | 'reading' | 'foretold'>,
  tolerance: Tolerance,
): string | null {
  if (!before?.predicted || !done || tolerance.measure !== 'range') return null;
  const { spreadEv, plusMinusEv } = before.predicted;
  const foretold = `foretold ${stops(spreadEv)}${plusMinus(plusMinusEv, 2)}`;
  const advised = before.moves.filter((move) => !isAlternative(move, before.moves));
  const made = done.filter((move) => !isAlternative(move, before.moves));
  if (made.length < advised.length) return `${foretold}, had all moves been made`;
  if (!areAsAdvised(made, advised)) return `${foretold}, had they been made as advised`;
  if (made.length < done.length) return `${foretold}, had the frame stayed`;
  const { falloff } = reading;
  const isBeyond = Math.abs(falloff.spreadEv - spreadEv) > Math.hypot(plusMinusEv, falloff.plusMinusEv);
  const least = falloff.isLowerBound ? 'at least ' : '';
  return `${foretold}, came out ${least}${markFigure(falloff, tolerance)}${isBeyond ? ': beyond that\u00a0±' : ''}`;
}

/** A take's figure without its ±, as it stands beside its mark. */
export function markFigure(falloff: Falloff, tolerance: Tolerance): string {
  return figureOnLine(judgedFigure(falloff, tolerance).value, tolerance).text;
}

/** A figure on the takes' axis. */
export function tickFigure(value: number, { measure }: Tolerance, digits: number): string {
  return measure === 'range' ? decimals(value, digits) : percent(value);
}

/** What the takes' axis counts. */
export const AXIS_WORDS: Record<Tolerance['measure'], string> = {
  range: 'stops across the frame',
  'from-centre': 'largest difference from the centre',
  'min-over-mean': 'darkest below the mean',
  'nine-point-min-max': 'darkest of nine points below the brightest',
};

/** The band's name, at its edge: "limit 0.3". */
export function limitWords(tolerance: Tolerance): string {
  return `limit ${limitOnLine(tolerance)}${tolerance.measure === 'range' ? '' : '\u00a0%'}`;
}

/** Of more takes that tie only so many are named. */
const MOST_NAMED = 6;

/**
 * Which take is best, in a sentence; those whose figures differ by no more than their ± tie. What clipping hides
 * can't be best. `null` with fewer than two takes.
 */
export function bestTakeWords(takes: readonly Take[], tolerance: Tolerance): string | null {
  if (takes.length < 2) return null;
  const judged = takes
    .map((take) => {
      const { falloff } = take.reading;
      return { number: takeNumber(take), falloff, ...judgedFigure(falloff, tolerance) };
    })
    .filter(({ falloff }) => !falloff.isLowerBound);
  const best = judged.reduce<(typeof judged)[number] | null>(
    (least, each) => (least === null || each.value < least.value ? each : least),
    null,
  );
  if (best === null) return 'Every take is clipped: none can be called the best.';
  const like = judged.filter(
    ({ value, plusMinus }) => value - best.value <= Math.hypot(plusMinus, best.plusMinus),
  );
  const figure = takeFigure(best.falloff, tolerance);
  if (like.length === 1) return `Take ${best.number} is the best: ${figure}.`;
  const numbers = like.map(({ number }) => number);
  const more = numbers.length - MOST_NAMED;
  const listed =
    more > 1
      ? `${numbers.slice(0, MOST_NAMED).join(', ')} and ${more} more`
      : `${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
  return `Takes ${listed} are the best, too close to tell apart: ${figure}.`;
}

/** The line of takes in one sentence for those who do not see it. */
export function takesSummary(takes: readonly Take[], tolerance: Tolerance): string {
  const values = takes.map(({ reading }) => markFigure(reading.falloff, tolerance));
  return `From take to take, ${AXIS_WORDS[tolerance.measure]}: ${values.join(', ')}; ${limitWords(tolerance)}.`;
}
