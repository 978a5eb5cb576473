/**
 * Distance in cells of each cell to the nearest marked one, by steps along rows, columns and diagonals (at most 8 %
 * too long). Infinite where none is marked.
 * Source: G. Borgefors, "Distance transformations in digital images", CVGIP 34, 1986.
 */
export function distanceMap(marked: (at: number) => boolean, columns: number, rows: number): Float32Array {
  const distance = new Float32Array(columns * rows);
  for (let at = 0; at < distance.length; at++) distance[at] = marked(at) ? 0 : Number.POSITIVE_INFINITY;
  sweep(distance, columns, rows, 1);
  sweep(distance, columns, rows, -1);
  return distance;
}

function sweep(distance: Float32Array, columns: number, rows: number, way: 1 | -1): void {
  const last = distance.length - 1;
  for (let step = 0; step <= last; step++) {
    const at = way === 1 ? step : last - step;
    const column = at % columns;
    const row = (at - column) / columns;
    const hasBefore = way === 1 ? column > 0 : column < columns - 1;
    const hasAfter = way === 1 ? column < columns - 1 : column > 0;
    const hasAbove = way === 1 ? row > 0 : row < rows - 1;
    let nearest = distance[at]!;
    if (hasBefore) nearest = Math.min(nearest, distance[at - way]! + 1);
    if (hasAbove) {
      const above = at - way * columns;
      nearest = Math.min(nearest, distance[above]! + 1);
      if (hasBefore) nearest = Math.min(nearest, distance[above - way]! + Math.SQRT2);
      if (hasAfter) nearest = Math.min(nearest, distance[above + way]! + Math.SQRT2);
    }
    distance[at] = nearest;
  }
}
