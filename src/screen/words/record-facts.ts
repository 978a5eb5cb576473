import type { Tolerance } from '../../engine/tolerance.ts';
import type { RecordFacts } from '../../takes/job-of-takes.ts';
import { setupAtTake } from '../../takes/setup-after.ts';
import type { HeldTake } from '../../takes/take.ts';
import { castFigures } from './cast-words.ts';
import type { LengthUnit } from './length-words.ts';
import { whatToDo } from './move-words.ts';
import { takeHeading } from './plot-file-words.ts';
import { enteredFigures, falloffFigures, judgedByWords, rampFigures } from './record-words.ts';
import { verdictSentence } from './verdict-sentence.ts';

/** What the printed record says of a take, as text. */
export function recordFacts(
  take: HeldTake,
  takes: readonly HeldTake[],
  tolerance: Tolerance,
  unit: LengthUnit,
): RecordFacts {
  const { reading } = take;
  const { even, plusMinus, caveat, where, neutral, exposed } = verdictSentence(reading, tolerance);
  const verdict = [[even, plusMinus].filter(Boolean).join(' '), caveat, where, neutral, exposed];
  const before = takes[takes.findIndex(({ id }) => id === take.id) - 1];
  const stood = before === undefined ? take.setup : setupAtTake(takes, before.id);
  const moves = (take.done ?? []).map(
    (move) => ['Move made before it', whatToDo(move, stood, unit)] as const,
  );
  return [
    ['Take', takeHeading(take)],
    ['Verdict', verdict.filter(Boolean).join(' ')],
    ['Judged by', judgedByWords(tolerance)],
    ['Light', reading.frame.lightSays],
    ...falloffFigures(reading),
    ...rampFigures(reading),
    ...castFigures(reading),
    ...enteredFigures(setupAtTake(takes, take.id), unit),
    ...moves,
  ];
}
