import type { Tolerance } from '../../../src/engine/tolerance.ts';

/** Does a window of whole cells pass, worked out plainly. */
function passesPlainly(
  map: readonly (number | null)[],
  columns: number,
  { measure, limit }: Tolerance,
  [column, row, wide, tall]: readonly [number, number, number, number],
): boolean {
  const light: number[] = [];
  for (let r = row; r < row + tall; r++)
    for (let c = column; c < column + wide; c++) light.push(2 ** (map[r * columns + c] ?? Number.NaN));
  if (light.some(Number.isNaN)) return false;
  const low = Math.min(...light);
  const high = Math.max(...light);
  const at = (x: number, y: number) => {
    // bilinear between centres inside the window
    const c = Math.min(wide - 1, Math.max(0, x * wide - 0.5));
    const r = Math.min(tall - 1, Math.max(0, y * tall - 0.5));
    let sum = 0;
    for (const [dc, wc] of [[Math.floor(c), 1 - (c % 1)] as const, [Math.ceil(c), c % 1] as const])
      for (const [dr, wr] of [[Math.floor(r), 1 - (r % 1)] as const, [Math.ceil(r), r % 1] as const])
        sum += wc * wr * light[dr * wide + dc]!;
    return sum;
  };
  const slack = 1e-12;
  if (measure === 'range') return Math.log2(high / low) <= limit + slack;
  if (measure === 'from-centre') {
    const centre = at(0.5, 0.5);
    return high / centre - 1 <= limit + slack && 1 - low / centre <= limit + slack;
  }
  if (measure === 'min-over-mean')
    return low >= (limit * light.reduce((sum, value) => sum + value, 0)) / light.length - slack;
  const nine = [1 / 6, 1 / 2, 5 / 6].flatMap((x) => [1 / 6, 1 / 2, 5 / 6].map((y) => at(x, y)));
  return Math.min(...nine) / Math.max(...nine) >= limit - slack;
}

/** The largest part that passes, by trying every window of every size. */
export function largestPlainly(
  map: readonly (number | null)[],
  columns: number,
  rows: number,
  by: Tolerance,
): number | null {
  const parts = new Set<number>();
  for (let c = 1; c <= columns; c++) parts.add(c / columns);
  for (let r = 1; r <= rows; r++) parts.add(r / rows);
  for (const part of [...parts].sort((a, b) => b - a)) {
    const wide = Math.ceil(part * columns - 1e-9);
    const tall = Math.ceil(part * rows - 1e-9);
    if (wide < 2 || tall < 2) return null;
    for (let row = 0; row <= rows - tall; row++)
      for (let column = 0; column <= columns - wide; column++)
        if (passesPlainly(map, columns, by, [column, row, wide, tall])) return part;
  }
  return null;
}
