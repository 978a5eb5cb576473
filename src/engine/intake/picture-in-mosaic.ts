import { type BayerOrder, orderFrom } from './bayer-order.ts';
import type { DngArea } from './dng-tags.ts';
import type { RawMosaic } from './raw-file.ts';

/**
 * The picture that a DNG states, in place of the decoder's own: that one begins at even cells only and leaves a column
 * or row of an odd start out. Where the two are further apart the decoder knows better.
 */
export function pictureInMosaic(
  mosaic: RawMosaic,
  order: BayerOrder,
  area: DngArea | null,
): { mosaic: RawMosaic; order: BayerOrder } {
  if (!area) return { mosaic, order };
  const { left_margin, top_margin, width, height, raw_width, raw_height } = mosaic;
  const own = [area.left, area.top, area.right, area.bottom];
  const its = [left_margin, top_margin, left_margin + width, top_margin + height];
  const isNear = own.every((edge, i) => Number.isInteger(edge) && Math.abs(edge - its[i]!) <= 1);
  if (!isNear || area.right > raw_width || area.bottom > raw_height) return { mosaic, order };
  return {
    mosaic: {
      ...mosaic,
      ...{ left_margin: area.left, top_margin: area.top },
      ...{ width: area.right - area.left, height: area.bottom - area.top },
    },
    order: orderFrom(order, area.left - left_margin, area.top - top_margin),
  };
}
