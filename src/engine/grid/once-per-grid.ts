import type { CellGrid } from './cell-grid.ts';

/** Works something out of a grid once, however many ask for it. */
export function oncePerGrid<T>(workOut: (grid: CellGrid) => T): (grid: CellGrid) => T {
  const known = new WeakMap<CellGrid, { readonly result: T }>();
  return (grid) => {
    let entry = known.get(grid);
    if (entry === undefined) {
      entry = { result: workOut(grid) };
      known.set(grid, entry);
    }
    return entry.result;
  };
}
