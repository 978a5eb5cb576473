import { line as pathOfLine } from 'd3-shape';
import type { PlotLine, PlotPoint } from './plot-line.ts';

const writePath = pathOfLine<PlotPoint>()
  .x(([x]) => x)
  .y(([, y]) => y)
  .digits(1);

/** SVG path data of lines, to a tenth of a drawing unit; an empty string for none. */
export function linePath(lines: readonly PlotLine[]): string {
  return lines.map((points) => writePath(points as PlotPoint[]) ?? '').join('');
}
