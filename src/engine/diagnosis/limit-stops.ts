import type { Tolerance } from '../tolerance.ts';

/** How far below the brightest a part may lie under a tolerance, in stops, so that effects can be weighed by it. */
export function limitStops({ measure, limit }: Tolerance): number {
  if (measure === 'range') return limit;
  return -Math.log2(measure === 'from-centre' ? 1 - limit : limit);
}
