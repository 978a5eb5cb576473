import type { CellGrid } from '../grid/cell-grid.ts';
import { oncePerGrid } from '../grid/once-per-grid.ts';
import { heldOutBlocks } from './held-out-blocks.ts';
import { outlierTrust, weighCells } from './outlier-trust.ts';
import { type UsableCells, usableCells } from './usable-cells.ts';

/** What all families are fitted to and judged by, so that their held-out errors compare. One element a usable cell. */
export interface FittingCells extends UsableCells {
  /** 0 to 1: whether the cell is part of smooth light. */
  readonly trust: Float64Array;
  /** Trust over variance; mean 1. */
  readonly weight: Float64Array;
  readonly blocks: number;
  readonly block: Int32Array;
  readonly folds: number;
  readonly fold: Int32Array;
}

/** @throws {@link EngineError} `too-small` where fewer than three cells can be used. */
export const fittingCells = oncePerGrid((grid: CellGrid): FittingCells => {
  const cells = usableCells(grid);
  const { blocks, folds, blockOfCell, foldOfCell } = heldOutBlocks(grid.columns, grid.rows);
  const trust = outlierTrust(grid, cells);
  const weight = new Float64Array(cells.count);
  weighCells(cells, trust, weight);
  return {
    ...cells,
    trust,
    weight,
    blocks,
    block: cells.cell.map((at) => blockOfCell[at]!),
    folds,
    fold: cells.cell.map((at) => foldOfCell[at]!),
  };
});
