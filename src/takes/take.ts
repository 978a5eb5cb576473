import type { Move } from '../engine/moves/move.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../engine/reading.ts';

/** One reading in the order of a set's making. */
export interface Take {
  readonly id: string;
  readonly reading: Reading;
  /** Moves made since the previous take; `null` where this take begins a new set-up. */
  readonly done: readonly Move[] | null;
  readonly note: string;
}

/** A take with what it was read from, so that it can be judged anew without its pixels. */
export interface HeldTake extends Take {
  readonly report: FrameReport;
  readonly region: FrameRectangle | undefined;
}

/** The takes with one more at the end; its id is the next number. */
export function withTake(
  takes: readonly HeldTake[],
  next: Omit<HeldTake, 'id' | 'reading' | 'note'>,
): HeldTake[] {
  const id = `take-${takes.length + 1}`;
  return [...takes, { ...next, id, reading: next.report.reading, note: '' }];
}

/** A take with its report judged anew. */
export function judgedAnew(take: HeldTake, report: FrameReport): HeldTake {
  return { ...take, report, reading: report.reading };
}

/** A take as the world outside sees it. */
export function publicTake({ id, reading, done, note }: HeldTake): Take {
  return { id, reading, done, note };
}
