import { type Comparison, compareReadings, type NotComparable } from '../engine/compare/compare-readings.ts';
import { type ExposedTake, type LightUnknown, lightOver } from '../engine/compare/light-reaching.ts';
import type { Reading } from '../engine/reading.ts';

/** Two takes held against each other. */
export interface ComparedTakes {
  readonly now: ExposedTake;
  readonly before: ExposedTake;
  readonly compared: Comparison;
  /** Stops of light gained in common over the part that both show, or why that is not known. */
  readonly light: number | LightUnknown;
}

/** Holds a take against an earlier one, or says why that can't be. */
export function comparedTakes(now: ExposedTake, before: ExposedTake): ComparedTakes | NotComparable {
  const compared = compareReadings(now.reading, before.reading);
  if (typeof compared === 'string') return compared;
  const light = lightOver(now, before);
  // levels are of all that was read of each: the part in common may be darker or brighter than that
  const inPart = compared.commonEv - (meanEv(now.reading) - meanEv(before.reading));
  return { now, before, compared, light: typeof light === 'number' ? light + inPart : light };
}

function meanEv({ falloff: { evMap } }: Reading): number {
  const measured = evMap.filter((ev) => ev !== null);
  return measured.reduce((sum, ev) => sum + ev, 0) / measured.length;
}
