import type { CellMask } from './cell-mask.ts';

/** Cells from (left, top) up to but without (right, bottom). */
export interface CellRectangle {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/**
 * The axis-aligned rectangle of most cells that are all marked; `null` where none is marked. Exact: the largest
 * rectangle under the histogram of marked heights at each row, by a stack of rising heights.
 */
export function largestRectangle({ columns, rows, cells }: CellMask): CellRectangle | null {
  const heights = new Int32Array(columns + 1); // the last stays 0 and empties the stack
  let best: CellRectangle | null = null;
  let bestArea = 0;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++)
      heights[column] = cells[row * columns + column] ? heights[column]! + 1 : 0;
    const rising: { from: number; height: number }[] = [];
    for (let column = 0; column <= columns; column++) {
      let from = column;
      while (rising.length > 0 && rising.at(-1)!.height >= heights[column]!) {
        const bar = rising.pop()!;
        from = bar.from;
        const area = bar.height * (column - bar.from);
        if (area <= bestArea) continue;
        bestArea = area;
        best = { left: bar.from, top: row + 1 - bar.height, right: column, bottom: row + 1 };
      }
      rising.push({ from, height: heights[column]! });
    }
  }
  return best;
}
