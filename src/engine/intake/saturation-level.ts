import type { Vector3 } from '../numeric/matrix3.ts';
import type { BayerOrder } from './bayer-order.ts';
import { blackOfChannels, type CellLevels } from './cell-levels.ts';
import type { RawMosaic } from './raw-file.ts';

/** One in so many pairs of rows is looked at. */
const EVERY = 4;
/** Below this share of the way to white cells do not stop counting, whatever is heaped there. */
const LEAST_OF_WHITE = 0.7;
/** Full cells differ a little; of the way to white. */
const HEAP_WIDTH = 0.002;
/** Cells that are faulty are fewer. */
const LEAST_SHARE = 0.0005;
/** A heap stands over the codes below it by so many times; the upper end of anything that noise or a slope spreads does not. */
const LEAST_TIMES = 8;

/**
 * From which code on cells count as full, for red, green and blue. A file may give a white that its sensor never reaches:
 * where cells are heaped up below it, as full ones are and nothing else is, the heap's lower end.
 */
export function saturationLevels(mosaic: RawMosaic, order: BayerOrder, levels: CellLevels): Vector3 {
  const { data, raw_width, left_margin, top_margin, width, height } = mosaic;
  const black = blackOfChannels(levels, order);
  return [0, 1, 2].map((channel) => {
    const counts = new Uint32Array(65536);
    let total = 0;
    for (let site = 0; site < 4; site++) {
      if (order[site] !== 'RGB'[channel]) continue;
      for (let row = site >> 1; row < height; row += 2 * EVERY) {
        const end = (row + top_margin) * raw_width + left_margin + width;
        for (let at = end - width + (site & 1); at < end; at += 2) counts[data[at]!]!++;
        total += width >> 1;
      }
    }
    return heapBelow(counts, total, black[channel]!, levels.white[channel]!) ?? levels.white[channel]!;
  }) as unknown as Vector3;
}

function heapBelow(counts: Uint32Array, total: number, black: number, white: number): number | null {
  const wide = Math.max(1, Math.ceil((white - black) * HEAP_WIDTH));
  const lowest = Math.ceil(black + LEAST_OF_WHITE * (white - black));
  const sum = (from: number, to: number) => counts.subarray(Math.max(0, from), to).reduce((a, b) => a + b, 0);
  if (sum(white, counts.length) >= LEAST_SHARE * total) return null; // white itself is reached
  for (let top = Math.floor(white) - 1; top - wide >= lowest; top--) {
    if (counts[top] === 0) continue;
    const heap = sum(top - wide + 1, top + 1);
    if (heap < LEAST_SHARE * total) continue;
    const below = sum(top - 3 * wide + 1, top - wide + 1) / 2;
    return heap >= LEAST_TIMES * Math.max(1, below) ? top - wide + 1 : null;
  }
  return null;
}
