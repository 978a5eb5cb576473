import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { toleranceLevels } from './tolerance-levels.ts';

/**
 * The share of the cells that the tolerance's own line encloses, 0 to 1: those above its level, or between its two
 * levels. For `range` it is the reading's `within.share`; for a measure against the centre or the mean that share,
 * which counts down from the brightest, would speak of another line than the one that is drawn.
 */
export function shareInside(reading: Reading, tolerance: Tolerance): number {
  const levels = toleranceLevels(reading, tolerance);
  const lowest = Math.min(...levels);
  const highest = levels.length > 1 ? Math.max(...levels) : Number.POSITIVE_INFINITY;
  const { evMap } = reading.falloff;
  const inside = evMap.filter((ev) => ev !== null && ev >= lowest && ev <= highest);
  return levels.length === 0 ? 0 : inside.length / evMap.length;
}
