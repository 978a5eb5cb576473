/** The sets of marked (1) cells that touch at a side or a corner, each a list of cells. */
export function connectedCells(marked: Uint8Array, columns: number, rows: number): number[][] {
  const left = marked.slice();
  const sets: number[][] = [];
  for (let start = 0; start < left.length; start++) {
    if (left[start] !== 1) continue;
    left[start] = 0;
    const cells = [start];
    for (let next = 0; next < cells.length; next++) {
      const column = cells[next]! % columns;
      const row = Math.floor(cells[next]! / columns);
      for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
        for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++) {
          const cell = r * columns + c;
          if (left[cell] !== 1) continue;
          left[cell] = 0;
          cells.push(cell);
        }
      }
    }
    sets.push(cells);
  }
  return sets;
}
