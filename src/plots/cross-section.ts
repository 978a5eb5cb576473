import type { CellMap } from './cell-map.ts';
import { linePath } from './line-path.ts';
import type { PlotPoint } from './plot-line.ts';

/** One cut through a map. */
export interface CrossSection {
  /** SVG path data; it stops at holes. */
  readonly path: string;
  /** Values along the cut, in order; NaN at holes. */
  readonly values: Float64Array;
}

/**
 * The figures along one row ('across') or column ('down') of a map, as a line. `placeAt` turns a distance in cells
 * into a drawing position along the frame's edge, `depthAt` a value into a position away from it.
 */
export function crossSection(
  { columns, rows, values }: CellMap,
  cut: { direction: 'across'; row: number } | { direction: 'down'; column: number },
  placeAt: (cells: number) => number,
  depthAt: (value: number) => number,
): CrossSection {
  const along =
    cut.direction === 'across'
      ? values.slice(cut.row * columns, (cut.row + 1) * columns)
      : Float64Array.from({ length: rows }, (_, row) => values[row * columns + cut.column]!);
  const runs: PlotPoint[][] = [];
  along.forEach((value, i) => {
    if (Number.isNaN(value)) return;
    if (i === 0 || Number.isNaN(along[i - 1])) runs.push([]);
    const [place, depth] = [placeAt(i + 0.5), depthAt(value)];
    runs.at(-1)!.push(cut.direction === 'across' ? [place, depth] : [depth, place]);
  });
  return { path: linePath(runs), values: along };
}
