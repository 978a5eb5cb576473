import type { PlotPoint } from './plot-line.ts';

/**
 * The part of a segment inside 0 to width, 0 to height; `null` where none of any length is inside.
 * Source: Y.-D. Liang and B. A. Barsky, "A new concept and method for line clipping", ACM ToG 3(1), 1984.
 */
export function clipSegment(
  from: PlotPoint,
  to: PlotPoint,
  width: number,
  height: number,
): readonly [PlotPoint, PlotPoint] | null {
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  let enter = 0;
  let leave = 1;
  const sides: readonly (readonly [number, number])[] = [
    [-dx, from[0]],
    [dx, width - from[0]],
    [-dy, from[1]],
    [dy, height - from[1]],
  ];
  for (const [towards, room] of sides) {
    if (towards === 0) {
      if (room < 0) return null;
    } else if (towards < 0) enter = Math.max(enter, room / towards);
    else leave = Math.min(leave, room / towards);
  }
  if (enter >= leave) return null;
  const at = (part: number): PlotPoint => [from[0] + part * dx, from[1] + part * dy];
  return [enter === 0 ? from : at(enter), leave === 1 ? to : at(leave)];
}
