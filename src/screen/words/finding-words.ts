import { type Finding, type FrameRectangle, WHOLE_FRAME } from '../../engine/reading.ts';
import { stops } from './figures.ts';
import { atPlaceWords } from './place-words.ts';

/** What stands after a finding: how sure it is, how much it explains, and where in the part read it is seen. */
export function findingAside({ confidence, ev, at }: Finding, region: FrameRectangle = WHOLE_FRAME): string {
  const explains = ev === null || ev < 0.05 ? '' : `, explains ${stops(ev)}`;
  const where = at === null ? '' : `; seen ${atPlaceWords(at, region)}`;
  return `${sureness(confidence)}${explains}${where}`;
}

/** How sure a finding is (0 to 1), in a word or two. */
export function sureness(confidence: number): string {
  if (confidence >= 0.95) return 'nearly certain';
  if (confidence >= 0.75) return 'likely';
  return confidence >= 0.5 ? 'more likely than not' : 'possible';
}
