import { LIGHT_OF_CODE, luminanceOf } from '../colour/srgb-code-light.ts';
import type { RgbaPicture } from '../intake/platform.ts';
import type { Exposure } from '../reading.ts';
import { edgeShare } from './edge-share.ts';

/** What a look at a frame in small shows: cells of light, for telling frames apart and for nothing finer. */
export interface FrameGlance {
  readonly columns: number;
  readonly rows: number;
  /** Luminance of each cell in stops under white, row-major; no less than {@link DARKEST_EV}. */
  readonly stops: Float64Array;
  /** log2 of red over blue light in each cell; 0 where it is too dark to have a colour. */
  readonly redOverBlueEv: Float64Array;
  /** Share of cells with an outline in them: light that steps within a few pixels, 0 to 1. */
  readonly edgeShare: number;
  /** Share of pixels at white in any channel, and of those hardly over black, 0 to 1. */
  readonly clippedShare: number;
  readonly darkShare: number;
  readonly exposure: Exposure | null;
}

/** Cells along the long side: an outline is still seen, a weave is not. */
const LONG_SIDE_CELLS = 24;
export const DARKEST_EV = -11;
const WHITE_CODE = 252;
const BLACK_CODE = 8;
/** Below this light eight bits leave no colour. */
const COLOURLESS_LIGHT = 0.002;

/**
 * Looks at a frame decoded in small, taken for sRGB: a preview, or a picture decoded at an eighth.
 * @param picture upright, at least one pixel a cell
 */
export function frameGlance(picture: RgbaPicture, exposure: Exposure | null): FrameGlance {
  const { widthPx, heightPx, samples } = picture;
  const long = Math.max(widthPx, heightPx);
  const columns = Math.max(1, Math.round((LONG_SIDE_CELLS * widthPx) / long));
  const rows = Math.max(1, Math.round((LONG_SIDE_CELLS * heightPx) / long));
  const sums = new Float64Array(columns * rows * 4);
  let clipped = 0;
  let dark = 0;
  for (let y = 0, at = 0; y < heightPx; y++) {
    const row = Math.floor((y * rows) / heightPx) * columns;
    for (let x = 0; x < widthPx; x++, at += 4) {
      const [red, green, blue] = [samples[at]!, samples[at + 1]!, samples[at + 2]!];
      const most = Math.max(red, green, blue);
      if (most >= WHITE_CODE) clipped++;
      if (most <= BLACK_CODE) dark++;
      const cell = (row + Math.floor((x * columns) / widthPx)) * 4;
      sums[cell] = sums[cell]! + LIGHT_OF_CODE[red]!;
      sums[cell + 1] = sums[cell + 1]! + LIGHT_OF_CODE[green]!;
      sums[cell + 2] = sums[cell + 2]! + LIGHT_OF_CODE[blue]!;
      sums[cell + 3] = sums[cell + 3]! + 1;
    }
  }
  const stops = new Float64Array(columns * rows);
  const redOverBlueEv = new Float64Array(columns * rows);
  for (let cell = 0; cell < stops.length; cell++) {
    const pixels = sums[cell * 4 + 3]!;
    const [red, green, blue] = [0, 1, 2].map((channel) => sums[cell * 4 + channel]! / pixels) as [
      number,
      number,
      number,
    ];
    const luminance = luminanceOf(red, green, blue);
    stops[cell] = Math.max(Math.log2(luminance), DARKEST_EV);
    redOverBlueEv[cell] =
      luminance < COLOURLESS_LIGHT
        ? 0
        : Math.log2((red + COLOURLESS_LIGHT / 10) / (blue + COLOURLESS_LIGHT / 10));
  }
  const pixels = widthPx * heightPx;
  return {
    ...{ columns, rows, stops, redOverBlueEv, exposure },
    edgeShare: edgeShare(picture, { columns, rows }),
    ...{ clippedShare: clipped / pixels, darkShare: dark / pixels },
  };
}
