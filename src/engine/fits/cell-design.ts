import type { SurfaceBasis } from './surface-basis.ts';
import type { UsableCells } from './usable-cells.ts';

/** A basis at every usable cell: `perPoint` numbers and values of functions a cell. */
export interface CellDesign {
  readonly basis: SurfaceBasis;
  readonly terms: Int32Array;
  readonly values: Float64Array;
}

export function cellDesign(basis: SurfaceBasis, { count, x, y }: UsableCells): CellDesign {
  const { perPoint } = basis;
  const terms = new Int32Array(count * perPoint);
  const values = new Float64Array(count * perPoint);
  for (let at = 0; at < count; at++) basis.write(x[at]!, y[at]!, terms, values, at * perPoint);
  return { basis, terms, values };
}

/** The surface with these coefficients, at one usable cell. */
export function designTimes(
  { basis: { perPoint }, terms, values }: CellDesign,
  coefficients: Float64Array,
  at: number,
): number {
  let sum = 0;
  for (let k = at * perPoint; k < (at + 1) * perPoint; k++) sum += values[k]! * coefficients[terms[k]!]!;
  return sum;
}
