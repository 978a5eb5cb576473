import type { Move } from '../engine/moves/move.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import type { Foretold } from './foretold.ts';
import type { HeldSecondFrame } from './second-frames.ts';

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
  /** What the take before told of this one when it was shot; `null` where this take begins a new set-up. */
  readonly foretold: Foretold | null;
  /** As entered for the first take of its set-up. */
  readonly setup: Setup;
  /** Distances that were measured after the moves before this take, per lamp. */
  readonly measuredMm: readonly (number | null)[];
  readonly region: FrameRectangle | undefined;
  /** What was shot beside it to tell apart what one frame can't; at most one of each kind. */
  readonly secondFrames: readonly HeldSecondFrame[];
  /** The files themselves, by reference, so that another part of the frame can be read. */
  readonly frames: readonly { readonly name: string; readonly blob: Blob }[];
}

/** The takes with one more at the end; its id is the next number. */
export function withTake(
  takes: readonly HeldTake[],
  next: Omit<HeldTake, 'id' | 'reading' | 'note'>,
): HeldTake[] {
  const id = `take-${takes.length + 1}`;
  return [...takes, { ...next, id, reading: next.report.reading, note: '' }];
}

/** The ids of the takes of one set-up: from the one that began it to the last before another begins. */
export function takesOfSetup(takes: readonly Take[], id: string): ReadonlySet<string> {
  const at = takes.findIndex((take) => take.id === id);
  let first = at;
  while (first > 0 && takes[first]!.done !== null) first--;
  let end = at + 1;
  while (end < takes.length && takes[end]!.done !== null) end++;
  return new Set(takes.slice(Math.max(0, first), end).map((take) => take.id));
}

/** What was done after a take, up to the newest. */
export function doneSince(takes: readonly Take[], id: string): readonly Move[] {
  const at = takes.findIndex((take) => take.id === id);
  return takes.slice(at + 1).flatMap(({ done }) => done ?? []);
}

/** The takes with what was entered for the set-up of one of them. */
export function withSetup(takes: readonly HeldTake[], id: string, setup: Setup): HeldTake[] {
  const concerned = takesOfSetup(takes, id);
  return takes.map((take) => (concerned.has(take.id) ? { ...take, setup } : take));
}

/** The takes with other second frames beside one of them, whose report is then still to be judged anew. */
export function withSecondFrames(
  takes: readonly HeldTake[],
  id: string,
  secondFrames: readonly HeldSecondFrame[],
): HeldTake[] {
  return takes.map((take) => (take.id === id ? { ...take, secondFrames } : take));
}

/** A take with its report judged anew. */
export function judgedAnew(take: HeldTake, report: FrameReport): HeldTake {
  return { ...take, report, reading: report.reading };
}

/** A take as the world outside sees it. */
export function publicTake({ id, reading, done, note }: HeldTake): Take {
  return { id, reading, done, note };
}

/** The takes with one's note changed. */
export function withNote(takes: readonly HeldTake[], id: string, note: string): HeldTake[] {
  return takes.map((take) => (take.id === id ? { ...take, note } : take));
}
