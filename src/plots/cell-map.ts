/**
 * One figure a cell over the region, row-major from the top left; NaN: nothing was measured there.
 * Plots count in cells: cell (column, row) spans column to column + 1, and its figure holds at its middle, + 0.5.
 */
export interface CellMap {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float64Array;
}

/**
 * A map of a Reading as plots need it: `null` becomes NaN.
 *
 * @throws RangeError where the length is not columns × rows.
 */
export function cellMap(
  grid: { readonly columns: number; readonly rows: number },
  values: readonly (number | null)[],
): CellMap {
  if (values.length !== grid.columns * grid.rows)
    throw new RangeError(`${values.length} figures do not fill ${grid.columns} × ${grid.rows} cells`);
  const measured = new Float64Array(values.length); // filled by hand: `from` is many times slower, and this runs often
  for (let i = 0; i < measured.length; i++) measured[i] = values[i] ?? Number.NaN;
  return { columns: grid.columns, rows: grid.rows, values: measured };
}
