import type { CellMap } from './cell-map.ts';
import { type ContourLevels, contourLevels } from './contour-levels.ts';
import { isoLinesOf } from './iso-lines.ts';
import type { PlotLine } from './plot-line.ts';

export interface MapLinesOptions {
  readonly width: number;
  readonly height: number;
  /** Finest step between lines: 0.1 stop, or 0.001 of Δu′v′. */
  readonly unit: number;
  readonly fontSize: number;
}

/** The lines of a map in drawing units, as far as they don't hang on what it is judged by. */
export interface MapLines extends ContourLevels {
  /** Each level's lines are followed once only. */
  readonly at: (level: number) => readonly PlotLine[];
}

/** Least distance between lines on most of the map, in font sizes. */
const LINE_SPACING = 1.4;

export function mapLines(map: CellMap, { width, height, unit, fontSize }: MapLinesOptions): MapLines {
  const cellSize = width / map.columns;
  const linesInCells = isoLinesOf(map);
  const followed = new Map<number, readonly PlotLine[]>();
  const acrossScale = width / map.columns;
  const downScale = height / map.rows;
  return {
    ...contourLevels(map, { unit, cellSize, leastSpacing: fontSize * LINE_SPACING }),
    at: (level) => {
      const known = followed.get(level);
      if (known !== undefined) return known;
      const lines = linesInCells(level).map((line) =>
        line.map(([x, y]) => [x * acrossScale, y * downScale] as const),
      );
      followed.set(level, lines);
      return lines;
    },
  };
}

/** {@link mapLines} that keeps the last map's: another limit then draws its own line anew, and no other. */
export function rememberedMapLines(): typeof mapLines {
  let last: { map: CellMap; options: string; lines: MapLines } | null = null;
  return (map, options) => {
    const { width, height, unit, fontSize } = options;
    const wanted = JSON.stringify([width, height, unit, fontSize]);
    if (last === null || last.options !== wanted || !sameMap(last.map, map))
      last = { map, options: wanted, lines: mapLines(map, options) };
    return last.lines;
  };
}

function sameMap(a: CellMap, b: CellMap): boolean {
  if (a.columns !== b.columns || a.rows !== b.rows) return false;
  for (let i = 0; i < a.values.length; i++) if (!Object.is(a.values[i], b.values[i])) return false;
  return true;
}
