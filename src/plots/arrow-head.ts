import { linePath } from './line-path.ts';
import type { PlotPoint } from './plot-line.ts';

/** Two short strokes that make a line from → to an arrow; an empty path where the line has no length. */
export function arrowHead(from: PlotPoint, to: PlotPoint, size: number): string {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return '';
  const reach = Math.min(size, length);
  const dx = ((to[0] - from[0]) / length) * reach;
  const dy = ((to[1] - from[1]) / length) * reach;
  return linePath([
    [[to[0] - dx - dy * 0.5, to[1] - dy + dx * 0.5], to, [to[0] - dx + dy * 0.5, to[1] - dy - dx * 0.5]],
  ]);
}
