/** Marks of cells (1 or 0), row-major. */
export interface CellMask {
  readonly columns: number;
  readonly rows: number;
  readonly cells: Uint8Array;
}

/** Calls `visit` with the cells above, below, left and right of a cell that lie in the grid. */
export function forEachNeighbour(
  { columns, rows }: Pick<CellMask, 'columns' | 'rows'>,
  cell: number,
  visit: (neighbour: number) => void,
): void {
  const column = cell % columns;
  if (column > 0) visit(cell - 1);
  if (column < columns - 1) visit(cell + 1);
  if (cell >= columns) visit(cell - columns);
  if (cell < columns * (rows - 1)) visit(cell + columns);
}

/** Number of marked cells. */
export function markedCells({ cells }: CellMask): number {
  return cells.reduce((sum, mark) => sum + mark, 0);
}

/** The mask without the cells that touch an unmarked one; the frame's own border takes nothing off. */
export function eroded(mask: CellMask): CellMask {
  const cells = mask.cells.slice();
  for (let cell = 0; cell < cells.length; cell++) {
    if (!mask.cells[cell])
      forEachNeighbour(mask, cell, (neighbour) => {
        cells[neighbour] = 0;
      });
  }
  return { ...mask, cells };
}

/** The mask and the cells that touch it, through sides or corners, as far as they lie in `within`. */
export function grownWithin(mask: CellMask, within: CellMask): CellMask {
  const { columns, rows } = mask;
  const cells = mask.cells.slice();
  for (let cell = 0; cell < cells.length; cell++) {
    if (!mask.cells[cell]) continue;
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y++)
      for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x++)
        if (within.cells[y * columns + x]) cells[y * columns + x] = 1;
  }
  return { ...mask, cells };
}

/** The connected areas of a mask (through sides, not corners), each as a mask of its own, largest first. */
export function connectedAreas(mask: CellMask, leastCells: number): CellMask[] {
  const seen = new Uint8Array(mask.cells.length);
  const areas: { area: CellMask; count: number }[] = [];
  for (let start = 0; start < seen.length; start++) {
    if (!mask.cells[start] || seen[start]) continue;
    const queue = [start];
    seen[start] = 1;
    for (let at = 0; at < queue.length; at++) {
      forEachNeighbour(mask, queue[at]!, (neighbour) => {
        if (!mask.cells[neighbour] || seen[neighbour]) return;
        seen[neighbour] = 1;
        queue.push(neighbour);
      });
    }
    if (queue.length < leastCells) continue;
    const cells = new Uint8Array(seen.length);
    for (const cell of queue) cells[cell] = 1;
    areas.push({ area: { ...mask, cells }, count: queue.length });
  }
  return areas.sort((a, b) => b.count - a.count).map(({ area }) => area);
}
