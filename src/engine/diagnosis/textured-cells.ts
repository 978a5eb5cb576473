import type { CellGrid } from '../grid/cell-grid.ts';
import { quantile } from '../numeric/quantile.ts';
import { LARGEST_DARK_NOISE } from './camera-noise.ts';
import type { CellLuminance } from './cell-luminance.ts';

/** Grain of cloth or paper that still counts as blank, as a share of the light. Own allowance. */
const GRAIN = 0.03;

/** Against the frame's own quiet cells: so many times their standard deviation is no noise any more. */
const TIMES_QUIET = 3;

/** A weave seen evenly all over scatters at most by this share of the light; a print or foliage by more. Own allowance. */
const COARSEST_WEAVE = 0.6;

/**
 * Share of pixels set aside in a cell from which it holds an edge. Small cells of a JPEG, whose pixels take few
 * codes, lose up to a fifth of them to the limits about their quartiles without anything being there.
 */
const EDGE_SHARE = 0.3;

/**
 * Marks (1) the cells whose pixels scatter more than noise, coding and the falloff across the cell can make them.
 * What noise is, is learnt from the frame's quietest fifth of cells, growing with light as shot noise does, and
 * bounded by what a weave can show. A fine texture that is the same all over thus passes, as a sheet's own weave
 * does: whether the light behind it is smooth is then for the cells' means to say.
 */
export function texturedCells(grid: CellGrid, cells: CellLuminance): Uint8Array {
  const { columns, rows } = grid;
  const { light, scatter, codeStep } = cells;
  const excess = new Float64Array(light.length); // variance beyond the falloff's
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      const across = slope(light, cell, column > 0 ? cell - 1 : cell, column < columns - 1 ? cell + 1 : cell);
      const down = slope(
        light,
        cell,
        row > 0 ? cell - columns : cell,
        row < rows - 1 ? cell + columns : cell,
      );
      excess[cell] = scatter[cell]! ** 2 - (across * across + down * down) / 12;
    }
  }
  const perLight = excess.map((variance, cell) => Math.max(0, variance) / light[cell]!);
  const quiet = quantile(perLight, 0.2);

  const textured = new Uint8Array(light.length);
  for (let cell = 0; cell < light.length; cell++) {
    const level = light[cell]!;
    if (Number.isNaN(level)) continue;
    const own = TIMES_QUIET * Math.sqrt(quiet * level) + 1.5 * codeStep[cell]! + GRAIN * level;
    const weave = COARSEST_WEAVE * level + 1.5 * codeStep[cell]! + 3 * LARGEST_DARK_NOISE;
    const deviation = Math.sqrt(Math.max(0, excess[cell]!));
    if (deviation > Math.min(own, weave) || grid.speckShare[cell]! > EDGE_SHARE) textured[cell] = 1;
  }
  return textured;
}

/**
 * Light a cell across, the gentler of the two sides' slopes: a subject's own edge next door is not to be taken as
 * falloff that excuses a scatter. 0 where a side is missing.
 */
function slope(light: Float64Array, cell: number, before: number, after: number): number {
  const left = Math.abs(light[cell]! - light[before]!);
  const right = Math.abs(light[after]! - light[cell]!);
  if (before === cell) return right || 0;
  if (after === cell) return left || 0;
  return Math.min(left, right) || 0;
}
