import type { FrameKind, ToldKind } from '../../engine/sorting/frame-kind.ts';
import type { ProposedSet } from '../../engine/sorting/proposed-set.ts';

/** Each begins with another letter, so that one key says it. */
export const KIND_WORDS: Record<FrameKind, string> = {
  blank: 'blank',
  subject: 'subject',
  marker: 'marker',
  'lamp-off': 'light off',
  'badly-exposed': 'exposed badly',
};

/** How sure a guess is; nothing where somebody said so. */
export function sureWords(told: ToldKind | null, isSaid: boolean): string {
  if (isSaid) return 'as you said';
  if (told === null) return '';
  if (told.confidence >= 0.9) return 'clearly';
  return told.confidence >= 0.65 ? 'probably' : 'a guess';
}

const frames = (count: number) => `${count} ${count === 1 ? 'frame' : 'frames'}`;

/** What would be corrected, and by what. */
export function setWords(
  { subjects, blank }: ProposedSet,
  names: readonly string[],
  hasMarker: boolean,
): string {
  if (subjects.length === 0) return 'None of them shows a subject: there is nothing to correct.';
  const which = hasMarker
    ? `the ${frames(subjects.length)} of the subject after the last marker`
    : `all ${frames(subjects.length)} of the subject`;
  const range = `${names[subjects[0]!]} to ${names[subjects.at(-1)!]}`;
  const what =
    subjects.length === 1 ? `the one frame of the subject, ${names[subjects[0]!]}` : `${which}, ${range}`;
  if (blank === null)
    return `To be corrected: ${what}. None of the frames is a blank: shoot one with this light, or say which it is.`;
  return `To be corrected: ${what}; by the blank ${names[blank]!}.`;
}

export function lookedWords(looked: number, of: number): string {
  return `Looking at ${frames(of)}: ${looked} so far.`;
}
