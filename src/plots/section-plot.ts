import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { cellMap } from './cell-map.ts';
import { crossSection } from './cross-section.ts';
import { type StopAxis, stopAxis } from './stop-axis.ts';
import { toleranceLevels } from './tolerance-levels.ts';

/** One cross-section drawn along an edge of the map, to the scale of stops that both share. */
export interface SectionPlot {
  readonly direction: 'across' | 'down';
  readonly path: string;
  readonly axis: StopAxis;
  /** Positions of the tolerance's levels on the axis. */
  readonly toleranceAt: readonly number[];
  /** Position of the spot along the edge. */
  readonly spotAt: number;
  readonly length: number;
  readonly depth: number;
  readonly fontSize: number;
  /** Fall along this section, in stops. */
  readonly fallEv: number;
}

/**
 * Space at the hottest and the lowest end of the axis, so that no line runs into the plot's edge, and the spacing of
 * the figures, in font sizes: they lie under one another where the scale runs down, beside one another where it runs
 * across.
 */
const HOTTEST_MARGIN = 0.7;
const LOWEST_MARGIN = 1.25;
const TICK_SPACING = { across: 1.5, down: 2.75 };

/** The cross-section through a cell; `length` along the edge, `depth` away from it, in drawing units. */
export function sectionPlot(
  reading: Reading,
  tolerance: Tolerance,
  direction: 'across' | 'down',
  spot: { column: number; row: number },
  { length, depth, fontSize }: { length: number; depth: number; fontSize: number },
): SectionPlot {
  const map = cellMap(reading.grid, reading.falloff.evMap);
  const levels = toleranceLevels(reading, tolerance);
  const axis = stopAxis(
    { spreadEv: reading.falloff.spreadEv, toleranceEv: Math.max(0, ...levels.map((ev) => -ev)) },
    {
      hottestAt: HOTTEST_MARGIN * fontSize,
      lowestAt: depth - LOWEST_MARGIN * fontSize,
      tickSpacing: TICK_SPACING[direction] * fontSize,
    },
  );
  const cells = direction === 'across' ? map.columns : map.rows;
  const placeAt = (cell: number) => (cell / cells) * length;
  const cut = direction === 'across' ? { direction, row: spot.row } : { direction, column: spot.column };
  const section = crossSection(map, cut, placeAt, axis.at);
  const measured = section.values.filter((ev) => !Number.isNaN(ev));
  return {
    direction,
    path: section.path,
    axis,
    toleranceAt: levels.filter((ev) => ev >= axis.lowestEv && ev <= 0).map(axis.at),
    spotAt: placeAt((direction === 'across' ? spot.column : spot.row) + 0.5),
    length,
    depth,
    fontSize,
    fallEv: measured.length === 0 ? Number.NaN : Math.max(...measured) - Math.min(...measured),
  };
}
