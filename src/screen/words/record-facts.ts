import { EVEN } from '../../engine/aim.ts';
import type { RecordFacts } from '../../takes/job-of-takes.ts';
import { setupAtTake } from '../../takes/setup-after.ts';
import type { FullTake, HeldTake } from '../../takes/take.ts';
import { aimSentences, aimWords, evenTooWords } from './aim-words.ts';
import { castFigures } from './cast-words.ts';
import { levelFigures } from './exposure-words.ts';
import type { LengthUnit } from './length-words.ts';
import { whatToDo } from './move-words.ts';
import { takeHeading } from './plot-file-words.ts';
import { enteredFigures, exposureWords, falloffFigures, judgedByWords, rampFigures } from './record-words.ts';
import { verdictSentence } from './verdict-sentence.ts';

/** What the printed record says of a take, as text: by the limit and the aim that it was itself judged by. */
export function recordFacts(take: FullTake, takes: readonly HeldTake[], unit: LengthUnit): RecordFacts {
  const { reading, report, judgedBy, note } = take;
  const exposure = exposureWords(reading.frame.exposure);
  const before = takes[takes.findIndex(({ id }) => id === take.id) - 1];
  const stood = before === undefined ? take.setup : setupAtTake(takes, before.id);
  const moves = (take.done ?? []).map(
    (move) => ['Move made before it', whatToDo(move, stood, unit)] as const,
  );
  return [
    ['Take', takeHeading(take)],
    ['Verdict', verdictWords(take)],
    ['Judged by', judgedByWords(judgedBy.tolerance)],
    ['The background is to be', aimWords(judgedBy.aim ?? EVEN)],
    ['Light', reading.frame.lightSays],
    ...(exposure === null ? [] : [['Exposure', exposure] as const]),
    ...levelFigures(report.level),
    ...falloffFigures(reading),
    ...rampFigures(reading),
    ...castFigures(reading),
    ...enteredFigures(setupAtTake(takes, take.id), unit),
    ...moves,
    ...(note === '' ? [] : [['Note', note] as const]),
  ];
}

/** All that is said of it, an aim's own first. */
function verdictWords({ reading, report: { aimed }, judgedBy: { tolerance } }: FullTake): string {
  const { even, plusMinus, caveat, where, neutral, exposed } = verdictSentence(reading, tolerance);
  const ofAim = aimed === null ? null : aimSentences(aimed, tolerance, reading.region);
  const first = ofAim === null ? [] : [ofAim.verdict, ofAim.plusMinus, ...ofAim.more];
  const says = [
    ...first,
    ofAim === null ? even : evenTooWords(even),
    plusMinus,
    caveat,
    where,
    neutral,
    exposed,
  ];
  return says.filter(Boolean).join(' ');
}
