/** A position in a plot, x right and y down; in cells or in drawing units, as the function says. */
export type PlotPoint = readonly [x: number, y: number];

/** A run of straight pieces; closed where its last point is its first. */
export type PlotLine = readonly PlotPoint[];

/** A line with the upright rectangle that holds it, by which most comparisons are settled. */
export interface BoundedLine {
  readonly line: PlotLine;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function withBounds(line: PlotLine): BoundedLine {
  let [left, top] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  let [right, bottom] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [x, y] of line) {
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < top) top = y;
    if (y > bottom) bottom = y;
  }
  return { line, left, top, right, bottom };
}

/** Whether the line ends where it begins. */
export function isClosed(line: PlotLine): boolean {
  const [first, last] = [line[0], line[line.length - 1]];
  return line.length > 2 && first![0] === last![0] && first![1] === last![1];
}

/** Distance along the line from its first point to each of its points. */
export function distancesAlong(line: PlotLine): Float64Array {
  const along = new Float64Array(line.length);
  for (let i = 1; i < line.length; i++) {
    const [x0, y0] = line[i - 1]!;
    const [x1, y1] = line[i]!;
    along[i] = along[i - 1]! + Math.hypot(x1 - x0, y1 - y0);
  }
  return along;
}

/** The point at a distance along the line; beyond its ends, the end. `along` as of {@link distancesAlong}. */
export function pointAlong(line: PlotLine, along: Float64Array, distance: number): PlotPoint {
  let i = 1;
  for (let last = line.length - 1; i < last; ) {
    const middle = (i + last) >> 1;
    if (along[middle]! < distance) i = middle + 1;
    else last = middle;
  }
  const [x0, y0] = line[i - 1]!;
  const [x1, y1] = line[i]!;
  const length = along[i]! - along[i - 1]!;
  const part = length > 0 ? Math.min(1, Math.max(0, (distance - along[i - 1]!) / length)) : 0;
  return [x0 + (x1 - x0) * part, y0 + (y1 - y0) * part];
}

/** The part of a line between two distances along it. */
export function stretchOf(line: PlotLine, along: Float64Array, from: number, to: number): PlotLine {
  const inside = line.filter((_, i) => along[i]! > from && along[i]! < to);
  return [pointAlong(line, along, from), ...inside, pointAlong(line, along, to)];
}
