import type { FrameKind } from './frame-kind.ts';

/** Frames of a shoot that belong together, by their places in it. */
export interface ProposedSet {
  /** To be corrected, in order. */
  readonly subjects: readonly number[];
  /** To correct them by; `null` where the shoot has none. */
  readonly blank: number | null;
}

/**
 * What of a shoot is to be corrected: the subjects after the last marker that subjects follow, or all where there is no
 * such marker; by the blank taken last before them, or else the first after.
 */
export function proposedSet(kinds: readonly FrameKind[]): ProposedSet {
  const lastSubject = kinds.lastIndexOf('subject');
  const marker = kinds.slice(0, Math.max(0, lastSubject)).lastIndexOf('marker');
  const subjects = kinds.flatMap((kind, i) => (kind === 'subject' && i > marker ? [i] : []));
  if (subjects.length === 0) return { subjects, blank: null };
  const before = kinds.lastIndexOf('blank', subjects[0]!);
  const after = kinds.indexOf('blank', subjects[0]!);
  const blank = before >= 0 ? before : after;
  return { subjects, blank: blank >= 0 ? blank : null };
}
