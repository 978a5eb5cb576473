import type { FrameReport } from '../engine/read-frame.ts';
import {
  figuresOf,
  mapsOf,
  plainReading,
  type ReadingFigures,
  type ReadingMaps,
  readingOf,
} from './reading-maps.ts';
import type { FullTake, HeldTake } from './take.ts';

/** What is small of a take, and may change often: a note, the set-up that was entered. */
export interface TakeFacts extends Omit<HeldTake, 'report' | 'frames' | 'reading'> {
  readonly figures: ReadingFigures;
}

/** What a take was judged from, its reading left out. */
export type TakeEvidence = Omit<FrameReport, 'reading'>;

/** A take as it is put on the shelf: in parts, so that what did not change is not written again. */
export interface ShelvedParts {
  readonly facts: TakeFacts;
  /** Only where the take was read or judged anew. */
  readonly judged: { readonly maps: ReadingMaps; readonly evidence: TakeEvidence } | null;
}

export function partsOf(take: HeldTake, isJudged: boolean): ShelvedParts {
  const { report, frames: _files, reading, ...facts } = take;
  const parts = { facts: { ...facts, figures: figuresOf(reading) } };
  if (!isJudged || report === null) return { ...parts, judged: null };
  const { reading: _, ...evidence } = report;
  return { ...parts, judged: { maps: mapsOf(reading), evidence } };
}

/** The take again, its report left on the shelf. */
export function takeOfParts(
  { figures, ...facts }: TakeFacts,
  maps: ReadingMaps,
  frames: HeldTake['frames'],
): HeldTake {
  return { ...facts, reading: readingOf(figures, maps), report: null, frames };
}

/** A report again, as the take's reading has what it lacks. */
export function reportOfParts({ reading }: HeldTake, evidence: TakeEvidence): FullTake['report'] {
  return { ...evidence, reading: plainReading(reading) };
}
