/**
 * How coarsely a JPEG coded the mean of an 8 × 8 block, in codes of luma and of chroma. The mean is an eighth of the DC
 * coefficient, so its step is an eighth of the quantiser's.
 */
export interface JpegDcSteps {
  readonly lumaCodes: number;
  readonly chromaCodes: number;
  /** Side of a chroma block in pixels of the picture: 8, or 16 where chroma is coded at half the resolution. */
  readonly chromaBlockPx: number;
}

/** Reads the first (DC) entry of every table in a DQT segment's data into `steps`, by table number. */
export function readDcQuantisers(data: Uint8Array, steps: number[]): void {
  // Source: ITU-T T.81 (1992), annex B.2.4.1: Pq and Tq in one byte, then 64 entries of one or two bytes.
  for (let at = 0; at < data.length; ) {
    const wide = data[at]! >> 4 !== 0;
    const first = wide ? (data[at + 1]! << 8) | data[at + 2]! : data[at + 1]!;
    if (first > 0) steps[data[at]! & 15] = first;
    at += wide ? 129 : 65;
  }
}

/**
 * Steps of a picture whose components use the quantisers `tables`; a table that is missing counts as the finest.
 * `lumaSampling` is how often luma is sampled for one chroma sample, along the axis where it is more.
 */
export function dcSteps(
  quantisers: readonly number[],
  tables: readonly number[],
  lumaSampling: number,
): JpegDcSteps {
  const step = (component: number) => (quantisers[tables[component] ?? 0] ?? 1) / 8;
  return {
    lumaCodes: step(0),
    chromaCodes: step(tables.length > 1 ? 1 : 0),
    chromaBlockPx: 8 * lumaSampling,
  };
}
