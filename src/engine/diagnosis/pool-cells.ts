import type { SurfaceSamples } from './legendre-surface.ts';

/** Most cells a block takes in along a side: a tenth of what a hot spot a fifth of the frame wide covers. */
const LARGEST_BLOCK = 4;

/** Fewer blocks along a side than this say too little. */
const FEWEST_BLOCKS = 14;

/**
 * Medians of equal blocks of cells, so that a fit costs less and a thing one cell wide does not count. The blocks
 * divide the grid evenly along each side, so that their centres stay evenly spaced. NaN cells don't count; a block
 * of nothing else is NaN.
 */
export function poolCells(values: Float64Array, columns: number, rows: number): SurfaceSamples {
  const wide = blockSide(columns);
  const tall = blockSide(rows);
  const across = columns / wide;
  const down = rows / tall;
  const pooled = new Float64Array(across * down).fill(Number.NaN);
  const block = new Float64Array(wide * tall);
  for (let cell = 0; cell < pooled.length; cell++) {
    const first = Math.floor(cell / across) * tall * columns + (cell % across) * wide;
    let count = 0;
    for (let k = 0; k < block.length; k++) {
      const value = values[first + Math.floor(k / wide) * columns + (k % wide)]!;
      if (!Number.isNaN(value)) block[count++] = value;
    }
    const sorted = block.subarray(0, count).sort();
    if (count > 0) pooled[cell] = (sorted[(count - 1) >> 1]! + sorted[count >> 1]!) / 2;
  }
  return { columns: across, rows: down, values: pooled };
}

function blockSide(cells: number): number {
  for (let side = LARGEST_BLOCK; side > 1; side--)
    if (cells % side === 0 && cells / side >= FEWEST_BLOCKS) return side;
  return 1;
}
