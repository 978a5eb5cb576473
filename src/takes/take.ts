import type { Move } from '../engine/moves/move.ts';
import type { FrameReport, JudgeOptions } from '../engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import type { Foretold } from './foretold.ts';
import { figuresOf, mapsOf, readingOf } from './reading-maps.ts';
import type { HeldSecondFrame } from './second-frames.ts';

/** One reading in the order of a set's making. */
export interface Take {
  readonly id: string;
  readonly reading: Reading;
  /** Moves made since the previous take; `null` where this take begins a new set-up. */
  readonly done: readonly Move[] | null;
  readonly note: string;
}

/**
 * A take as the page holds it. What is large of it, its report, is in memory only while it is needed: of the newest
 * takes and of the one that is shown. That of others lies on the shelf.
 */
export interface HeldTake extends Take {
  /** What it can be judged anew from without its pixels; `null` where that lies on the shelf alone. */
  readonly report: FrameReport | null;
  /** What its report goes by. Where something else holds now, it is judged anew before it is shown. */
  readonly judgedBy: JudgedUnder;
  /** When it was shot, in milliseconds since 1970: as its file says, or when it was read. */
  readonly shotAt: number;
  readonly summary: TakeSummary;
  /** What the take before told of this one when it was shot; `null` where a new set-up begins, or that take is gone. */
  readonly foretold: Foretold | null;
  /** What was moved after it, before a take that was deleted; `null` where none was. */
  readonly movedSince: MovedSince | null;
  /** As entered for the first take of its set-up. */
  readonly setup: Setup;
  /** Distances that were measured after the moves before this take, per lamp. */
  readonly measuredMm: readonly (number | null)[];
  readonly region: FrameRectangle | undefined;
  /** What was shot beside it to tell apart what one frame can't; at most one of each kind. */
  readonly secondFrames: readonly HeldSecondFrame[];
  /** The files themselves, by reference, so that another part of the frame can be read; none where they are gone. */
  readonly frames: readonly { readonly name: string; readonly blob: Blob }[];
}

/** Moves between two takes, as they stand beside the later one. */
export type MovedSince = Pick<HeldTake, 'done' | 'measuredMm'>;

/** A take with all of it in memory. */
export type FullTake = HeldTake & { readonly report: FrameReport };

/** What is small of a report, and asked for of takes whose report is not in memory. */
export interface TakeSummary extends Pick<FrameReport, 'level' | 'readBy' | 'samples'> {
  /** The sets that explained it, where later takes of its set-up begin to look for theirs. */
  readonly found: NonNullable<FrameReport['set']>['found'];
}

/** What a take was judged by. */
export interface JudgedUnder extends Omit<JudgeOptions, 'secondFrames' | 'earlierTakes'> {
  /** The ids of the takes that it was fitted together with. */
  readonly after: readonly string[];
}

/** What is known of a take as it comes in. */
export type IncomingTake = Omit<FullTake, 'reading' | 'note' | 'summary' | 'movedSince'>;

/** The takes with one more at the end, before which is done what was moved since the last one. */
export function withTake(takes: readonly HeldTake[], next: IncomingTake): HeldTake[] {
  const { report } = next;
  const before = takes.map((take) => (take.movedSince === null ? take : { ...take, movedSince: null }));
  const come = { ...next, reading: report.reading, summary: summaryOf(report), note: '', movedSince: null };
  return [...before, come];
}

/** The number that a take has kept since it was read, whichever others were deleted. */
export const takeNumber = ({ id }: Pick<Take, 'id'>): number => Number(id.slice(id.lastIndexOf('-') + 1));

export const isInFull = (take: HeldTake): take is FullTake => take.report !== null;

/** A take with its report judged anew, or fetched. */
export function judgedAnew(take: HeldTake, report: FrameReport, judgedBy: JudgedUnder): FullTake {
  return { ...take, report, judgedBy, reading: report.reading, summary: summaryOf(report) };
}

/**
 * A take whose report lies on the shelf: what is left takes a sixth of the room, most of it the maps of its reading.
 * Files that were picked cost nothing; what was fetched from an address is let go.
 */
export function withoutReport(take: FullTake): HeldTake {
  const frames = take.frames.filter(({ blob }) => blob instanceof File);
  const reading = readingOf(figuresOf(take.reading), mapsOf(take.reading));
  return { ...take, report: null, reading, frames };
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

/** A take as the world outside sees it. */
export function publicTake({ id, reading, done, note }: HeldTake): Take {
  return { id, reading, done, note };
}

/** The takes with one's note changed. */
export function withNote(takes: readonly HeldTake[], id: string, note: string): HeldTake[] {
  return takes.map((take) => (take.id === id ? { ...take, note } : take));
}

const summaryOf = ({ level, readBy, samples, set }: FrameReport): TakeSummary => ({
  ...{ level, readBy, samples },
  found: set?.found ?? [],
});
