import type { CellGrid } from './cell-grid.ts';

/** All three channels of each cell together: coloured light may leave any one of them black. */
export function cellsLight({ light }: Pick<CellGrid, 'light'>): Float64Array {
  return light.green.map((green, i) => light.red[i]! + green + light.blue[i]!);
}

/** log2 of a grid's whole light; cells without measurement don't count. */
export function levelStops(grid: Pick<CellGrid, 'light'>): number {
  return Math.log2(cellsLight(grid).reduce((sum, value) => (Number.isNaN(value) ? sum : sum + value), 0));
}
