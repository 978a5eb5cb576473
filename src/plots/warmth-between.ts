import { cctAndDuv } from '../engine/colour/correlated-colour-temperature.ts';
import { planckianDerivative } from '../engine/colour/planckian-locus.ts';
import type { FramePoint, Reading } from '../engine/reading.ts';
import { meanChromaticity } from './mean-chromaticity.ts';
import { type SpotReading, spotReading } from './spot-reading.ts';

/** A difference of warmth; positive is warmer. */
export interface WarmthDifference {
  readonly mired: number;
  readonly plusMinusMired: number;
}

/**
 * How much warmer one spot is than another, by the two spots' own smoothed cells; `null` where either has no colour
 * temperature. The ± is that of two figures, each no worse than the tint's, which is of the farthest of all cells.
 */
export function warmthBetween(reading: Reading, from: FramePoint, to: FramePoint): WarmthDifference | null {
  const before = spotAt(reading, from).mired;
  const after = spotAt(reading, to).mired;
  if (before === null || after === null) return null;
  const plusMinusDeltaUv = Math.SQRT2 * reading.tint.plusMinusDeltaUv;
  return { mired: after - before, plusMinusMired: plusMinusDeltaUv / deltaUvPerMired(reading) };
}

/** The step along the Planckian locus that one mired is, at the mean colour of the reading. */
function deltaUvPerMired(reading: Reading): number {
  const { uPrime, vPrime } = meanChromaticity(reading);
  const tangent = planckianDerivative(cctAndDuv(uPrime, vPrime)?.mired ?? Number.NaN, 1);
  return Math.hypot(tangent.u, 1.5 * tangent.v); // v′ is 1.5 v
}

function spotAt(reading: Reading, { x, y }: FramePoint): SpotReading {
  const { region, grid } = reading;
  const column = ((x - region.left) / (region.right - region.left)) * grid.columns;
  const row = ((y - region.top) / (region.bottom - region.top)) * grid.rows;
  return spotReading(reading, column, row);
}
