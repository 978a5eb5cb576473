import type { Falloff, Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';

/**
 * Where on a falloff map the tolerance runs, in stops (0 is the brightest). Two levels for a band about the
 * centre, one otherwise. A nine-point limit is drawn at its ratio to the brightest, although it is judged at nine
 * places only.
 */
export function toleranceLevels(
  { falloff, grid }: Pick<Reading, 'grid'> & { readonly falloff: Pick<Falloff, 'evMap'> },
  tolerance: Tolerance,
): number[] {
  const { measure, limit } = tolerance;
  if (measure === 'range') return [-limit];
  if (measure === 'nine-point-min-max') return [Math.log2(limit)];
  const measured = falloff.evMap.filter((ev) => ev !== null);
  if (measure === 'min-over-mean') {
    const mean = measured.reduce((sum, ev) => sum + 2 ** ev, 0) / measured.length;
    return [Math.log2(limit * mean)];
  }
  const middle = falloff.evMap[Math.floor(grid.rows / 2) * grid.columns + Math.floor(grid.columns / 2)];
  if (middle === null || middle === undefined) return [];
  return [middle + Math.log2(1 - limit), middle + Math.log2(1 + limit)];
}
