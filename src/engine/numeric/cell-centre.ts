/** Cells that divide a region of the frame evenly, row-major from its top left; the region in shares of the frame. */
export interface DividedRegion {
  readonly columns: number;
  readonly rows: number;
  readonly region: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
}

/** Where in the frame the centre of a cell lies, 0 to 1 each way. */
export function cellCentre(cells: DividedRegion, cell: number): { x: number; y: number } {
  const row = Math.floor(cell / cells.columns);
  return placeInCells(cells, cell - row * cells.columns + 0.5, row + 0.5);
}

/** Where in the frame a place counted in cells from the region's top left lies; (0.5, 0.5) is the first one's centre. */
export function placeInCells(
  { columns, rows, region }: DividedRegion,
  acrossCells: number,
  downCells: number,
): { x: number; y: number } {
  return {
    x: region.left + (acrossCells / columns) * (region.right - region.left),
    y: region.top + (downCells / rows) * (region.bottom - region.top),
  };
}
