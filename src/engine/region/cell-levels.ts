import type { LinearFrame } from '../frame/linear-frame.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { completeLight } from './complete-light.ts';

/** Light this many stops below the brightest cell is as good as black beside it; nothing darker tells of an edge. */
const DEEPEST_STOPS = 8;
/** Nor do the lowest codes, where one code is a large part of a stop. */
const UNSURE_CODES = 6;

/**
 * Luminance of each cell in stops, levelling off in the dark: there rounding alone would make steps.
 */
export function cellLevels(grid: CellGrid, frame: LinearFrame): Float64Array {
  const { lightAtCode, toXyz } = grid;
  const light = completeLight(grid, frame);
  const [red, green, blue] = [toXyz[3], toXyz[4], toXyz[5]];
  const luminance = light.green.map((g, i) => red * light.red[i]! + green * g + blue * light.blue[i]!);
  let brightest = 0;
  for (const value of luminance) if (value > brightest) brightest = value; // NaN compares false
  const codes = lightAtCode.green;
  const unsure = codes[Math.min(codes.length - 1, UNSURE_CODES)]!;
  const floor = Math.max(brightest / 2 ** DEEPEST_STOPS, unsure);
  return luminance.map((value) => Math.log2(Math.max(0, value) + floor));
}
