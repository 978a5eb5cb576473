import type { SurfaceBasis } from './surface-basis.ts';
import type { UsableCells } from './usable-cells.ts';

/** A basis at every usable cell: the number of the first function that counts there, and the values of all that do. */
export interface CellDesign {
  readonly basis: SurfaceBasis;
  readonly first: Int32Array;
  /** `runs` × `runLength` a cell. */
  readonly values: Float64Array;
}

export function cellDesign(
  basis: SurfaceBasis,
  { count, x, y }: Pick<UsableCells, 'count' | 'x' | 'y'>,
): CellDesign {
  const perCell = basis.runs * basis.runLength;
  const first = new Int32Array(count);
  const values = new Float64Array(count * perCell);
  for (let at = 0; at < count; at++) first[at] = basis.write(x[at]!, y[at]!, values, at * perCell);
  return { basis, first, values };
}

/** The surface with these coefficients, at one usable cell. */
export function designTimes(
  { basis: { runs, runLength, runStride }, first, values }: CellDesign,
  coefficients: Float64Array,
  at: number,
): number {
  let sum = 0;
  let from = at * runs * runLength;
  for (let run = 0; run < runs; run++) {
    const term = first[at]! + run * runStride;
    for (let k = 0; k < runLength; k++) sum += values[from + k]! * coefficients[term + k]!;
    from += runLength;
  }
  return sum;
}

/** Adds `factor` times the functions' values at one usable cell to `sum`, which it modifies in place. */
export function addDesignRow(
  { basis: { runs, runLength, runStride }, first, values }: CellDesign,
  factor: number,
  at: number,
  sum: Float64Array,
): void {
  let from = at * runs * runLength;
  for (let run = 0; run < runs; run++) {
    const term = first[at]! + run * runStride;
    for (let k = 0; k < runLength; k++) sum[term + k]! += factor * values[from + k]!;
    from += runLength;
  }
}
