import type { BayerOrder } from './bayer-order.ts';
import type { DevelopedPicture, RawMosaic } from './raw-file.ts';

/** Rows and columns of quads that are looked at, spread over the picture. */
const MOST_A_SIDE = 400;
/** What must agree, so that black is the same all over. */
const LEAST_SHARE = 0.99;
const FEWEST_QUADS = 100;
/** Below it noise may reach under black, where it is cut off. */
const LEAST_CODE = 64;

/**
 * The black that the decoder itself takes off, by holding its half-size picture (nothing done but that) against the
 * mosaic: for files whose levels only it can read. Both greens get the mean of their two blacks, which is what their own
 * mean needs. `null` where it is not one black all over; `'too-dark'` where hardly any cell stands clear of it.
 */
export function blackByDeveloping(
  { data, raw_width, left_margin, top_margin, width, height }: RawMosaic,
  order: BayerOrder,
  picture: DevelopedPicture,
): readonly [number, number, number, number] | 'too-dark' | null {
  const [columns, rows] = [width >> 1, height >> 1];
  if (picture.colors !== 3 || picture.width < columns || picture.height < rows) return null;
  const step = { column: Math.ceil(columns / MOST_A_SIDE), row: Math.ceil(rows / MOST_A_SIDE) };
  const taken = [new Map<number, number>(), new Map<number, number>(), new Map<number, number>()];
  let quads = 0;
  for (let row = 0; row < rows; row += step.row)
    for (let column = 0; column < columns; column += step.column) {
      const at = 3 * (row * picture.width + column);
      const its = [picture.data[at]!, picture.data[at + 1]!, picture.data[at + 2]!];
      if (its.some((code) => code < LEAST_CODE)) continue;
      quads++;
      const sums = [0, 0, 0];
      for (let site = 0; site < 4; site++) {
        const from = (2 * row + (site >> 1) + top_margin) * raw_width + 2 * column + (site & 1) + left_margin;
        sums['RGB'.indexOf(order[site]!)]! += data[from]!;
      }
      // the mean of two greens lost its half
      for (let channel = 0; channel < 3; channel++) {
        const off = sums[channel]! - (channel === 1 ? 2 : 1) * its[channel]!;
        taken[channel]!.set(off, (taken[channel]!.get(off) ?? 0) + 1);
      }
    }
  if (quads < FEWEST_QUADS) return 'too-dark';
  const red = mostFrequent(taken[0]!, quads, 1);
  const greens = mostFrequent(taken[1]!, quads, 2);
  const blue = mostFrequent(taken[2]!, quads, 1);
  if (red === null || greens === null || blue === null) return null;
  return [...order].map((letter) =>
    letter === 'R' ? red : letter === 'G' ? greens / 2 : blue,
  ) as unknown as readonly [number, number, number, number];
}

/** The lowest of `run` neighbouring numbers that nearly all are; `null` where there is none. */
function mostFrequent(counts: ReadonlyMap<number, number>, total: number, run: number): number | null {
  let best: number | null = null;
  let most = 0;
  for (const first of counts.keys()) {
    let count = 0;
    for (let i = 0; i < run; i++) count += counts.get(first + i) ?? 0;
    if (count > most) [best, most] = [first, count];
  }
  return most >= LEAST_SHARE * total ? best : null;
}
