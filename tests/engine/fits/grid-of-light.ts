import type { CellChannels, CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import type { Matrix3 } from '../../../src/engine/numeric/matrix3.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { type FrameRectangle, WHOLE_FRAME } from '../../../src/engine/reading.ts';

/** Linear sRGB to XYZ at D65 (IEC 61966-2-1, rounded to four digits): any luminous RGB will do here. */
export const SRGB_TO_XYZ: Matrix3 = [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505];

export interface GridOptions {
  readonly columns?: number;
  readonly rows?: number;
  readonly region?: FrameRectangle;
  readonly cellPx?: number;
  /** Standard deviation of each cell's noise, in stops, the same error in no two cells or channels. */
  readonly noiseEv?: number;
  readonly seed?: number;
}

/** A grid whose cells hold exactly the field's log2 light at their centres, plus noise. */
export function gridOfLight(
  log2Light: (x: number, y: number) => readonly [number, number, number],
  options: GridOptions = {},
): CellGrid {
  const { columns = 96, rows = 64, region = WHOLE_FRAME, cellPx = 20, noiseEv = 0, seed = 1 } = options;
  const count = columns * rows;
  const random = seededRandom(seed);
  const channels = (): CellChannels => ({
    red: new Float64Array(count),
    green: new Float64Array(count),
    blue: new Float64Array(count),
  });
  const light = channels();
  const scatter = channels();
  const pixelNoise = noiseEv * Math.LN2 * cellPx;
  for (let at = 0; at < count; at++) {
    const x = region.left + (((at % columns) + 0.5) / columns) * (region.right - region.left);
    const y = region.top + ((Math.floor(at / columns) + 0.5) / rows) * (region.bottom - region.top);
    const [red, green, blue] = log2Light(x, y);
    light.red[at] = 2 ** (red + noiseEv * random.normal());
    light.green[at] = 2 ** (green + noiseEv * random.normal());
    light.blue[at] = 2 ** (blue + noiseEv * random.normal());
    scatter.red[at] = pixelNoise * light.red[at]!;
    scatter.green[at] = pixelNoise * light.green[at]!;
    scatter.blue[at] = pixelNoise * light.blue[at]!;
  }
  const lightAtCode = Float64Array.from({ length: 65536 }, (_, code) => code / 65535);
  return {
    jpegDcSteps: null,
    jpegPixelVariance: null,
    refinedByBlocks: false,
    fine: null,
    setAsideLuminance: new Float64Array(count).fill(Number.NaN),
    darkSpeckShare: new Float64Array(count),
    columns,
    rows,
    region,
    cellWidthPx: cellPx,
    cellHeightPx: cellPx,
    light,
    scatter,
    pixels: new Float64Array(count).fill(cellPx * cellPx),
    highlightShare: new Float64Array(count),
    shadowShare: new Float64Array(count),
    speckShare: new Float64Array(count),
    lightAtCode: { red: lightAtCode, green: lightAtCode, blue: lightAtCode },
    toXyz: SRGB_TO_XYZ,
  };
}
