import { type Finding, type FrameRectangle, WHOLE_FRAME } from '../../engine/reading.ts';
import { stops } from './figures.ts';
import { type LengthUnit, lengthWords, MM_PER } from './length-words.ts';
import { atPlaceWords } from './place-words.ts';

/**
 * A finding's own sentence, its lengths in the unit of the page: the engine tells them in whole centimetres, and their
 * millimetres beside it.
 */
export function findingSays(
  { says, lengthsMm }: Pick<Finding, 'says'> & Partial<Pick<Finding, 'lengthsMm'>>,
  unit: LengthUnit,
): string {
  if (unit === 'cm') return says;
  let told = 0;
  return says.replace(/\b(\d+) cm\b/g, (_, cm) => {
    // one of an earlier version's has no list, and its sentence alone
    const mm = lengthsMm?.[told++] ?? MM_PER.cm * Number(cm);
    return lengthWords(Math.max(mm, LEAST_TOLD_INCHES * MM_PER.in), unit);
  });
}

/** What is there is not told as nothing. */
const LEAST_TOLD_INCHES = 0.1;

/** Less is no tenth of a stop. */
const LEAST_TOLD_EV = 0.05;

/**
 * What stands after a finding: how sure it is, how much it explains, and where in the part read it is seen. Nothing
 * after what can't be told: its own sentence says what is sure of it.
 */
export function findingAside(
  { kind, confidence, ev, at }: Finding,
  region: FrameRectangle = WHOLE_FRAME,
): string {
  if (kind === 'cannot-tell') return '';
  const where = at === null ? '' : `; seen ${atPlaceWords(at, region)}`;
  return `${sureness(confidence)}${shareWords(ev ?? 0)}${where}`;
}

function shareWords(ev: number): string {
  if (ev >= LEAST_TOLD_EV) return `, explains ${stops(ev)}`;
  // light that fills in where other light is lacking
  return ev <= -LEAST_TOLD_EV ? `; without it the spread would be ${stops(-ev)} larger` : '';
}

/** How sure a finding is (0 to 1), in a word or two. */
export function sureness(confidence: number): string {
  if (confidence >= 0.95) return 'nearly certain';
  if (confidence >= 0.75) return 'likely';
  return confidence >= 0.5 ? 'more likely than not' : 'possible';
}
