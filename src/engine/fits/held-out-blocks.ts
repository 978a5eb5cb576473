/** Which cells are held out of a fit together. Row-major over the grid. */
export interface HeldOutBlocks {
  readonly blocks: number;
  readonly folds: number;
  readonly blockOfCell: Int32Array;
  /** The fold a cell is held out in; there may be a fold without cells on a very small grid. */
  readonly foldOfCell: Int32Array;
}

const BLOCK_CELLS = 8;
const FEWEST_BLOCKS = 12;
const FOLDS = 10;

/**
 * Cuts a grid into blocks of about 8 × 8 cells (smaller where fewer than a dozen would fit) and deals them into
 * folds. Neighbouring cells share dust, texture and the lens, so that single held-out cells would always choose
 * the richest surface.
 *
 * The fold is (column + 3 row) mod 10 of the block: blocks of one fold lie at least √10 blocks apart, and because
 * 3² = −1 mod 10 a frame turned by a quarter keeps its folds and therefore its choice
 * (but for a middle row of cells that two blocks would have to share).
 */
export function heldOutBlocks(columns: number, rows: number): HeldOutBlocks {
  let side = BLOCK_CELLS;
  let across = blocksAlong(columns, side);
  let down = blocksAlong(rows, side);
  while (across * down < FEWEST_BLOCKS && side > 1) {
    side /= 2;
    across = blocksAlong(columns, side);
    down = blocksAlong(rows, side);
  }
  const folds = Math.min(FOLDS, across * down);
  const blockOfCell = new Int32Array(columns * rows);
  const foldOfCell = new Int32Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    const blockRow = blockOf(row, rows, down);
    for (let column = 0; column < columns; column++) {
      const blockColumn = blockOf(column, columns, across);
      blockOfCell[row * columns + column] = blockRow * across + blockColumn;
      foldOfCell[row * columns + column] = (blockColumn + 3 * blockRow) % folds;
    }
  }
  return { blocks: across * down, folds, blockOfCell, foldOfCell };
}

function blocksAlong(cells: number, side: number): number {
  return Math.max(1, Math.round(cells / side));
}

/** The same from either end, so that a turned grid is cut at the same places. */
function blockOf(cell: number, cells: number, blocks: number): number {
  const mirrored = cells - 1 - cell;
  if (mirrored < cell) return blocks - 1 - Math.floor(((mirrored + 0.5) * blocks) / cells);
  return Math.floor(((cell + 0.5) * blocks) / cells);
}
