import type { PlotLine } from './plot-line.ts';

const toTenth = (value: number) => Math.round(value * 10) / 10;

/** SVG path data of lines, to a tenth of a drawing unit; an empty string for none. A point alone is closed, a dot. */
export function linePath(lines: readonly PlotLine[]): string {
  let path = '';
  for (const points of lines) {
    let command = 'M';
    for (const [x, y] of points) {
      path += `${command}${toTenth(x)},${toTenth(y)}`;
      command = 'L';
    }
    if (points.length === 1) path += 'Z';
  }
  return path;
}
