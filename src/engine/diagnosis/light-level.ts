import type { CellGrid } from '../grid/cell-grid.ts';
import { oncePerGrid } from '../grid/once-per-grid.ts';
import { firstToClip } from '../maps/channel-headroom.ts';
import { smoothedLight } from '../maps/smoothed-light.ts';
import { quantile } from '../numeric/quantile.ts';
import { cellLuminance } from './cell-luminance.ts';

/** What the exposure allows to be said of the falloff. */
export interface LightLevel {
  /** Stops to open up until the brightest part lies a stop below clipping; negative: close down. NaN: no light. */
  readonly stopsToAim: number;
  /** Half-width of the 95 % interval that noise and coding alone leave on the spread, in stops. */
  readonly plusMinusEv: number;
}

/** The blank frame is to be exposed a stop below clipping. */
const AIM_STOPS = 1;

/** A smoothed cell rests on at least so many cells: the plane over 5 × 5 has fewest at the region's corners. */
const CELLS_AT_A_CORNER = 9;

/** Cells along a side of a smoothed one. */
const SMOOTHED_CELLS = 5;

/** A slope is taken over so many cells each way, since neighbours may lie within one code of a still field. */
const SLOPE_REACH = 8;

/**
 * How far the frame is from its aim, and what noise and the step between codes leave uncertain at its level.
 *
 * Rounding to codes errs by up to half a step where light and noise are both still. Noise smooths that error away
 * as exp(−2π²(σ/step)²), the first harmonic of the rounding error (Widrow & Kollár, Quantization Noise, 2008; from
 * memory); falloff over the smoothed cells does as its own sinc, here by the envelope step / (π × change).
 */
export const lightLevel = oncePerGrid((grid: CellGrid): LightLevel => {
  const { columns, rows } = grid;
  const { light, scatter, codeStep } = cellLuminance(grid);
  const cellEv = light.map((level, cell) => {
    if (Number.isNaN(level)) return Number.NaN;
    const noise = (1.96 * scatter[cell]!) / Math.sqrt(grid.pixels[cell]! * CELLS_AT_A_CORNER);
    const step = codeStep[cell]!;
    const change = changeAcrossSmoothed(light, columns, rows, cell);
    const stilled = Math.exp(-2 * (Math.PI * (scatter[cell]! / step)) ** 2);
    const swept = Math.min(1, step / (Math.PI * change));
    const rounding = (0.95 / 2) * step * Math.min(stilled, swept);
    return Math.hypot(noise, rounding) / (level * Math.LN2);
  });
  // The spread is a difference of two cells; the darkest tenth holds the weaker of them.
  const plusMinusEv = Math.SQRT2 * quantile(cellEv, 0.9);

  return { stopsToAim: -AIM_STOPS - firstToClip(smoothedLight(grid), grid).ev, plusMinusEv };
});

/** Change of light over the cells of a smoothed one, along the steeper side; 0 where the neighbours are missing. */
function changeAcrossSmoothed(light: Float64Array, columns: number, rows: number, cell: number): number {
  const column = cell % columns;
  const row = Math.floor(cell / columns);
  const along = (position: number, count: number, stride: number) => {
    const before = Math.min(SLOPE_REACH, position);
    const after = Math.min(SLOPE_REACH, count - 1 - position);
    const change = Math.abs(light[cell + after * stride]! - light[cell - before * stride]!);
    return (SMOOTHED_CELLS * change) / (before + after) || 0; // NaN, and a single row, say nothing
  };
  return Math.max(along(column, columns, 1), along(row, rows, columns));
}
