import { contours } from 'd3-contour';
import type { CellMap } from './cell-map.ts';
import { clipSegment } from './clip-segment.ts';
import { marginBySlope } from './margin-by-slope.ts';
import type { PlotLine, PlotPoint } from './plot-line.ts';

/**
 * The lines along which a map takes one value, in cells (0 to columns, 0 to rows).
 *
 * The contour generator closes its areas along the frame's edge and round holes (NaN); those pieces say nothing
 * of the light and are cut away. Between the outermost middles and the edge the map goes on at its slope.
 */
export function isoLines(map: CellMap, value: number): PlotLine[] {
  return isoLinesOf(map)(value);
}

/** The same for one value after another: what they share is made once. */
export function isoLinesOf(map: CellMap): (value: number) => PlotLine[] {
  const wide = marginBySlope(map);
  const values = Array.from(wide.values);
  const generator = contours().size([wide.columns, wide.rows]);
  return (value) => {
    const lines: PlotLine[] = [];
    for (const area of generator.contour(values, value).coordinates)
      for (const ring of area) lines.push(...openRing(ring as unknown as PlotPoint[], wide, map));
    return lines;
  };
}

function openRing(ring: readonly PlotPoint[], wide: CellMap, map: CellMap): PlotLine[] {
  const pieces: PlotPoint[][] = [];
  let open: PlotPoint[] | null = null;
  for (let i = 1; i < ring.length; i++) {
    const segment = touchesHole(ring[i - 1]!, ring[i]!, wide)
      ? null
      : clipSegment(fromMargin(ring[i - 1]!), fromMargin(ring[i]!), map.columns, map.rows);
    if (segment === null) {
      open = null;
      continue;
    }
    const [from, to] = segment;
    const end = open?.[open.length - 1];
    if (open !== null && end![0] === from[0] && end![1] === from[1]) open.push(to);
    else {
      open = [from, to];
      pieces.push(open);
    }
  }
  return joinAcrossStart(pieces);
}

function fromMargin([x, y]: PlotPoint): PlotPoint {
  return [x - 1, y - 1];
}

/** The ring's own start is no end of a line: where both sides of it are kept, they are one line. */
function joinAcrossStart(pieces: PlotPoint[][]): PlotLine[] {
  const first = pieces[0];
  const last = pieces[pieces.length - 1];
  if (first === undefined || last === undefined || first === last) return pieces;
  const end = last[last.length - 1]!;
  if (end[0] !== first[0]![0] || end[1] !== first[0]![1]) return pieces;
  return [[...last, ...first.slice(1)], ...pieces.slice(1, -1)];
}

/** A segment lies between four middles, or along the line between two of them: is one of them a hole? */
function touchesHole([x0, y0]: PlotPoint, [x1, y1]: PlotPoint, wide: CellMap): boolean {
  const x = (x0 + x1) / 2 - 0.5;
  const y = (y0 + y1) / 2 - 0.5;
  const hair = 1e-9; // a segment on a line of middles belongs to the squares on both sides
  for (const row of [Math.floor(y - hair), Math.floor(y + hair) + 1])
    for (const column of [Math.floor(x - hair), Math.floor(x + hair) + 1])
      if (isHole(column, row, wide)) return true;
  return false;
}

function isHole(column: number, row: number, { columns, rows, values }: CellMap): boolean {
  if (column < 0 || row < 0 || column >= columns || row >= rows) return false;
  return Number.isNaN(values[row * columns + column]!);
}
