import type { Tolerance } from '../engine/tolerance.ts';
import { comparedTakes } from '../plots/compared-takes.ts';
import { exposedTake } from '../takes/exposed-take.ts';
import type { FullTake, HeldTake } from '../takes/take.ts';
import type { LengthUnit } from './words/length-words.ts';
import { PLOT_FILE_WORDS, type PlotFile } from './words/plot-file-words.ts';

/** What plots are drawn of. */
export interface PlottedTake {
  readonly take: FullTake;
  readonly takes: readonly HeldTake[];
  readonly tolerance: Tolerance;
  readonly unit: LengthUnit;
}

/** The plots that there are of a take. */
export function plotFiles(of: PlottedTake): readonly PlotFile[] {
  const isThere = (file: PlotFile) => {
    if (file === 'response') return of.take.report.readBy.response !== null;
    return !file.endsWith('difference') || withTakeBefore(of) !== null;
  };
  return (Object.keys(PLOT_FILE_WORDS) as PlotFile[]).filter(isThere);
}

/** A take held against the one before it; `null` where there is none to be compared. */
export function withTakeBefore({ take, takes }: PlottedTake) {
  const before = takes[takes.findIndex(({ id }) => id === take.id) - 1];
  if (before === undefined) return null;
  const both = comparedTakes(exposedTake(take), exposedTake(before));
  return typeof both === 'string' ? null : { before, compared: both.compared };
}
