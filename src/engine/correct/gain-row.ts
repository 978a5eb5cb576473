/** One channel's log2 gains over a frame as stored: node 0 on its left or top edge, the last on the other. */
export interface ChannelGains {
  readonly columns: number;
  readonly rows: number;
  readonly log2Gain: readonly number[];
}

/**
 * Fills the gains of one row of pixels, whose centres lie at (column + 0.5) / width. Between two nodes log2 gain is a
 * straight line, so gain is a geometric progression: one exponential at its start, then a product per pixel.
 */
export function fillGainRow(
  { columns, rows, log2Gain }: ChannelGains,
  row: number,
  heightPx: number,
  into: Float64Array,
): void {
  const widthPx = into.length;
  const down = ((row + 0.5) / heightPx) * (rows - 1);
  const above = Math.min(Math.floor(down), rows - 2);
  const v = down - above;
  const at = above * columns;
  const level = (column: number) => (1 - v) * log2Gain[at + column]! + v * log2Gain[at + column + columns]!;
  const nodesPerPixel = (columns - 1) / widthPx;
  let from = level(0);
  let pixel = 0;
  for (let interval = 0; interval < columns - 1; interval++) {
    const to = level(interval + 1);
    const end =
      interval === columns - 2 ? widthPx : Math.min(widthPx, Math.ceil((interval + 1) / nodesPerPixel - 0.5));
    if (pixel < end) {
      let gain = 2 ** (from + ((pixel + 0.5) * nodesPerPixel - interval) * (to - from));
      const ratio = 2 ** ((to - from) * nodesPerPixel);
      for (; pixel < end; pixel++) {
        into[pixel] = gain;
        gain *= ratio;
      }
    }
    from = to;
  }
}
