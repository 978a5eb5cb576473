import type { Falloff } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { contourLevels } from './contour-levels.ts';
import { falloffPicture, type MapPicture } from './falloff-picture.ts';
import { isoLinesOf } from './iso-lines.ts';
import { linePath } from './line-path.ts';
import type { PlotLine } from './plot-line.ts';
import { toleranceLevels } from './tolerance-levels.ts';

/** A map that is drawn many times a second: no labels to be placed, the step told beside it. */
export interface LiveMap {
  readonly picture: MapPicture;
  /** SVG path data in cells, 0 to columns and 0 to rows. */
  readonly contourPath: string;
  readonly tolerancePath: string;
  readonly stepEv: number;
}

const UNIT_EV = 0.1;
/** Lines keep so many cells apart; more would take longer to find than the next picture to come. */
const APART_CELLS = 3;
/** A tenth of a unit is a twentieth of a cell's width on paper; paths are written in units of a tenth. */
const UNITS_A_CELL = 10;

/** `tolerance` is `null` where a map is not to be judged yet. */
export function liveMap(
  columns: number,
  rows: number,
  falloff: Pick<Falloff, 'evMap'>,
  tolerance: Tolerance | null,
): LiveMap {
  const map = { columns, rows, values: Float64Array.from(falloff.evMap, (ev) => ev ?? Number.NaN) };
  const { levels, step } = contourLevels(map, { unit: UNIT_EV, cellSize: 1, leastSpacing: APART_CELLS });
  const linesAt = isoLinesOf(map);
  const inUnits = (lines: PlotLine[]) =>
    linePath(lines.map((line) => line.map(([x, y]) => [x * UNITS_A_CELL, y * UNITS_A_CELL] as const)));
  const limits = tolerance ? toleranceLevels({ falloff, grid: { columns, rows } }, tolerance) : [];
  return {
    picture: falloffPicture(map, tolerance?.measure === 'range' ? tolerance.limit : 0),
    contourPath: levels.map((level) => inUnits(linesAt(level))).join(''),
    tolerancePath: limits.map((level) => inUnits(linesAt(level))).join(''),
    stepEv: step,
  };
}

export const LIVE_UNITS_A_CELL = UNITS_A_CELL;
