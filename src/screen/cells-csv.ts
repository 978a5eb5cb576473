import type { Reading } from '../engine/reading.ts';

/**
 * The smoothed cells as a table (RFC 4180): place across the upright frame, 0 to 1, stops below the brightest cell, and
 * CIE 1976 u′v′ adapted to D65. What was not measured is left empty.
 */
export function cellsCsv({ region, grid, falloff, tint }: Reading): string {
  const { columns, rows } = grid;
  const across = (region.right - region.left) / columns;
  const down = (region.bottom - region.top) / rows;
  const figure = (value: number | null | undefined, digits: number) => value?.toFixed(digits) ?? '';
  const lines = falloff.evMap.map((ev, i) => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    return [
      column,
      row,
      (region.left + (column + 0.5) * across).toFixed(5),
      (region.top + (row + 0.5) * down).toFixed(5),
      figure(ev, 4),
      figure(tint.uPrimeMap[i], 5),
      figure(tint.vPrimeMap[i], 5),
    ].join(',');
  });
  return ['column,row,x,y,ev,u_prime,v_prime', ...lines, ''].join('\r\n');
}
