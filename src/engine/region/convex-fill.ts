import type { CellMask } from './cell-mask.ts';

type Point = readonly [number, number];

const turn = (o: Point, a: Point, b: Point) => (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);

/** One chain of the hull of points sorted by x. Source: Andrew 1979, Inf. Proc. Letters 9, 216 (from memory). */
function chain(points: readonly Point[], side: 1 | -1): Point[] {
  const hull: Point[] = [];
  for (const point of points) {
    while (hull.length > 1 && side * turn(hull.at(-2)!, hull.at(-1)!, point) <= 0) hull.pop();
    hull.push(point);
  }
  return hull;
}

/** Height of a chain at a column that it spans. */
function heightAt(hull: readonly Point[], column: number): number {
  let k = 0;
  while (k < hull.length - 2 && hull[k + 1]![0] < column) k++;
  const [[x0, y0], [x1, y1]] = [hull[k]!, hull[Math.min(k + 1, hull.length - 1)]!];
  return x1 === x0 ? y0 : y0 + ((y1 - y0) * (column - x0)) / (x1 - x0);
}

/** The least convex area that holds all marked cells, by their centres. */
export function convexFill({ columns, rows, cells }: CellMask): CellMask {
  const tops: Point[] = [];
  const bottoms: Point[] = [];
  for (let column = 0; column < columns; column++) {
    let top = 0;
    while (top < rows && !cells[top * columns + column]) top++;
    if (top === rows) continue;
    let bottom = rows - 1;
    while (!cells[bottom * columns + column]) bottom--;
    tops.push([column, top]);
    bottoms.push([column, bottom]);
  }
  const filled = new Uint8Array(cells.length);
  if (tops.length === 0) return { columns, rows, cells: filled };
  const upper = chain(tops, 1);
  const lower = chain(bottoms, -1);
  for (let column = tops[0]![0]; column <= tops.at(-1)![0]; column++) {
    const last = Math.floor(heightAt(lower, column) + 1e-9);
    for (let row = Math.ceil(heightAt(upper, column) - 1e-9); row <= last; row++)
      filled[row * columns + column] = 1;
  }
  return { columns, rows, cells: filled };
}
