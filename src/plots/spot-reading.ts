import { cctAndDuv } from '../engine/colour/correlated-colour-temperature.ts';
import { cellCentre } from '../engine/numeric/cell-centre.ts';
import type { FramePoint, Reading } from '../engine/reading.ts';
import { meanChromaticity } from './mean-chromaticity.ts';

/** What was read at one cell. Warmth and green–magenta are against the mean; `null` where they mean nothing. */
export interface SpotReading {
  readonly column: number;
  readonly row: number;
  /** Middle of the cell, across the whole upright frame. */
  readonly at: FramePoint;
  readonly ev: number | null;
  readonly plusMinusEv: number;
  readonly mired: number | null;
  readonly duv: number | null;
  readonly deltaUv: number | null;
}

/** The figures of one cell; column and row are brought into the grid. */
export function spotReading(reading: Reading, wantedColumn: number, wantedRow: number): SpotReading {
  const { grid, region, falloff, tint } = reading;
  const column = Math.min(grid.columns - 1, Math.max(0, Math.floor(wantedColumn)));
  const row = Math.min(grid.rows - 1, Math.max(0, Math.floor(wantedRow)));
  const i = row * grid.columns + column;
  const uPrime = tint.uPrimeMap[i] ?? null;
  const vPrime = tint.vPrimeMap[i] ?? null;
  const mean = meanChromaticity(reading);
  const here = uPrime === null || vPrime === null ? null : cctAndDuv(uPrime, vPrime);
  const whole = cctAndDuv(mean.uPrime, mean.vPrime);
  return {
    column,
    row,
    at: cellCentre({ ...grid, region }, i),
    ev: falloff.evMap[i] ?? null,
    plusMinusEv: falloff.cellPlusMinusEv,
    mired: here === null || whole === null ? null : here.mired - whole.mired,
    duv: here === null || whole === null ? null : here.duv - whole.duv,
    deltaUv:
      uPrime === null || vPrime === null ? null : Math.hypot(uPrime - mean.uPrime, vPrime - mean.vPrime),
  };
}
