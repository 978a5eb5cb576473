import type { RawMetadata } from './raw-file.ts';

/** The colours of four cells: top left, top right, bottom left, bottom right. */
export type BayerOrder = 'RGGB' | 'BGGR' | 'GRBG' | 'GBRG';

const ORDERS: readonly string[] = ['RGGB', 'BGGR', 'GRBG', 'GBRG'];

/**
 * The order from the picture's own corner; `null` for any other arrangement of colours. A filter number holds two bits a
 * cell for rows of two cells, the top left one lowest, and repeats after eight rows.
 */
export function bayerOrder({ filters, cdesc, colors }: RawMetadata): BayerOrder | null {
  if (colors !== 3) return null;
  const quad = filters & 0xff;
  if (filters >>> 0 !== (quad | (quad << 8) | (quad << 16) | (quad << 24)) >>> 0) return null;
  const order = [0, 2, 4, 6].map((shift) => cdesc[(quad >> shift) & 3] ?? '?').join('');
  return ORDERS.includes(order) ? (order as BayerOrder) : null;
}

/** The order from another corner, so many cells further right and down. */
export function orderFrom(order: BayerOrder, right: number, down: number): BayerOrder {
  const moved = [0, 1, 2, 3].map((site) => order[(((site >> 1) + down) & 1) * 2 + ((site + right) & 1)]);
  return moved.join('') as BayerOrder;
}
