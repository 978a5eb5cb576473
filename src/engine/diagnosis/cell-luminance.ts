import type { CellGrid } from '../grid/cell-grid.ts';
import { codesOf } from '../grid/coding-planes.ts';
import { oncePerGrid } from '../grid/once-per-grid.ts';

/** Luminance of each cell and how its single pixels scatter; light 1 is the white code. */
export interface CellLuminance {
  /** NaN where the cell was set aside or has no light. */
  readonly light: Float64Array;
  /** Standard deviation of single pixels, taking the channels to go together (the most it can be). */
  readonly scatter: Float64Array;
  /** Width of one code at the cell's level, luminance. */
  readonly codeStep: Float64Array;
}

/** Draws luminance out of a grid, once: it is not to be changed. A cell with a channel missing is missing. */
export const cellLuminance = oncePerGrid((grid: CellGrid): CellLuminance => {
  const count = grid.columns * grid.rows;
  const light = new Float64Array(count);
  const scatter = new Float64Array(count);
  const codeStep = new Float64Array(count);
  const weights = [grid.toXyz[3], grid.toXyz[4], grid.toXyz[5]] as const;
  const channels = ['red', 'green', 'blue'] as const;
  channels.forEach((channel, k) => {
    const weight = weights[k]!;
    const values = grid.light[channel];
    const scatters = grid.scatter[channel];
    const { step } = codesOf(values, grid.lightAtCode[channel]);
    for (let cell = 0; cell < count; cell++) {
      light[cell]! += weight * values[cell]!;
      scatter[cell]! += Math.abs(weight) * scatters[cell]!;
      codeStep[cell]! += Math.abs(weight) * step[cell]!;
    }
  });
  for (let cell = 0; cell < count; cell++) if (!(light[cell]! > 0)) light[cell] = Number.NaN;
  return { light, scatter, codeStep };
});
