import type { BayerOrder } from './bayer-order.ts';
import type { DevelopedPicture, RawMosaic } from './raw-file.ts';

/** Rows and columns of quads that are looked at, spread over the picture. */
const MOST_A_SIDE = 400;
/** What must agree, so that black is the same all over. */
const LEAST_SHARE = 0.99;
const FEWEST_QUADS = 100;
/** Above it noise does not reach under black, where it is cut off. */
const CLEAR_CODE = 64;
/** Of quads about black, a quarter have both greens above it. */
const LEAST_SHARE_ABOUT_BLACK = 0.1;

/**
 * The black that the decoder itself takes off, by holding its half-size picture (nothing done but that) against the
 * mosaic: for files whose levels only it can read. Both greens get the mean of their two blacks, which is what their own
 * mean needs. `null` where it is not one black all over; `'too-dark'` where hardly any cell stands above it.
 */
export function blackByDeveloping(
  mosaic: RawMosaic,
  order: BayerOrder,
  picture: DevelopedPicture,
): readonly [number, number, number, number] | 'too-dark' | null {
  const [columns, rows] = [mosaic.width >> 1, mosaic.height >> 1];
  if (picture.colors !== 3 || picture.width < columns || picture.height < rows) return null;
  const channels = [0, 1, 2].map((channel) => takenOff(mosaic, order, picture, channel));
  if (channels.includes('too-dark')) return 'too-dark';
  if (channels.includes(null)) return null;
  const [red, greens, blue] = channels as [number, number, number];
  return [...order].map((letter) =>
    letter === 'R' ? red : letter === 'G' ? greens / 2 : blue,
  ) as unknown as readonly [number, number, number, number];
}

/** What is taken off a channel's cells of a quad, both greens together. */
function takenOff(
  { data, raw_width, left_margin, top_margin, width, height }: RawMosaic,
  order: BayerOrder,
  picture: DevelopedPicture,
  channel: number,
): number | 'too-dark' | null {
  const letter = 'RGB'[channel];
  const places = [0, 1, 2, 3]
    .filter((site) => order[site] === letter)
    .map((site) => (site >> 1) * raw_width + (site & 1));
  const [columns, rows] = [width >> 1, height >> 1];
  const clear = new Map<number, number>();
  const aboutBlack = new Map<number, number>();
  let clearQuads = 0;
  let quads = 0;
  for (let row = 0; row < rows; row += Math.ceil(rows / MOST_A_SIDE))
    for (let column = 0; column < columns; column += Math.ceil(columns / MOST_A_SIDE)) {
      const code = picture.data[3 * (row * picture.width + column) + channel]!;
      if (code === 0) continue; // below black: what was taken off can't be told
      const from = (2 * row + top_margin) * raw_width + 2 * column + left_margin;
      const sum = places.reduce((total, place) => total + data[from + place]!, 0);
      const off = sum - places.length * code;
      const counts = code < CLEAR_CODE ? aboutBlack : clear;
      counts.set(off, (counts.get(off) ?? 0) + 1);
      quads++;
      if (code >= CLEAR_CODE) clearQuads++;
    }
  if (quads < FEWEST_QUADS) return 'too-dark';
  const run = places.length; // the mean of two greens lost its half
  if (clearQuads >= FEWEST_QUADS) return mostFrequent(clear, LEAST_SHARE * clearQuads, run);
  // where one of two greens lies below black, less is taken off: what is right is the most
  const most = Math.max(...aboutBlack.keys()) - run + 1;
  return countFrom(aboutBlack, most, run) >= LEAST_SHARE_ABOUT_BLACK * quads ? most : null;
}

/** The lowest of `run` neighbouring numbers that come up so often; `null` where there is none. */
function mostFrequent(counts: ReadonlyMap<number, number>, least: number, run: number): number | null {
  let best: number | null = null;
  let most = 0;
  for (const first of counts.keys()) {
    const count = countFrom(counts, first, run);
    if (count > most) [best, most] = [first, count];
  }
  return most >= least ? best : null;
}

function countFrom(counts: ReadonlyMap<number, number>, first: number, run: number): number {
  let count = 0;
  for (let i = 0; i < run; i++) count += counts.get(first + i) ?? 0;
  return count;
}
