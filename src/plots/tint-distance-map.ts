import type { Reading } from '../engine/reading.ts';
import { type CellMap, cellMap } from './cell-map.ts';
import { meanChromaticity } from './mean-chromaticity.ts';

/** Distance of each cell's chromaticity from the mean, in u′v′; NaN where nothing was measured. */
export function tintDistanceMap(reading: Reading): CellMap {
  const u = cellMap(reading.grid, reading.tint.uPrimeMap).values;
  const v = cellMap(reading.grid, reading.tint.vPrimeMap).values;
  const mean = meanChromaticity(reading);
  return {
    columns: reading.grid.columns,
    rows: reading.grid.rows,
    values: u.map((uPrime, i) => Math.hypot(uPrime - mean.uPrime, v[i]! - mean.vPrime)),
  };
}
