import { xyzToUvPrime } from '../colour/chromaticity.ts';
import type { LinearFrame } from '../frame/linear-frame.ts';
import { transformVector3, type Vector3 } from '../numeric/matrix3.ts';
import { quantile } from '../numeric/quantile.ts';
import type { LightRows } from './light-rows.ts';

/** How even and of one colour a background is. */
export interface BackgroundFigures {
  /** Stops of luminance from the 0.5th to the 99.5th percentile of the blocks. */
  readonly spreadEv: number;
  /** The 99.5th percentile of the blocks' distance in u′v′ from the colour of their mean. */
  readonly deltaUv: number;
  /** Stops of the blocks' median luminance below white; above it negative. */
  readonly belowWhiteEv: number;
  readonly blocks: number;
}

const BLOCK_PX = 64;
/** As far as a block may reach into what is no background. */
const LEAST_SHARE = 0.995;

/**
 * Figures of the light over blocks of 64 pixels as stored that are background throughout; `null` where fewer than
 * two are.
 *
 * @param isBackground - 0 to 1 for a pixel as stored.
 */
export function backgroundBlocks(
  { widthPx, heightPx, toXyz }: LinearFrame,
  rows: LightRows,
  fillBackground: (row: number, into: Float64Array) => void,
): BackgroundFigures | null {
  const across = Math.floor(widthPx / BLOCK_PX);
  const down = Math.floor(heightPx / BLOCK_PX);
  const found: Vector3[] = [];
  const background = new Float64Array(widthPx);
  for (let blockRow = 0; blockRow < down; blockRow++) {
    const sums = new Float64Array(across * 4);
    for (let row = blockRow * BLOCK_PX; row < (blockRow + 1) * BLOCK_PX; row++) {
      const [red, green, blue] = rows.fill(row);
      fillBackground(row, background);
      for (let i = 0; i < across * BLOCK_PX; i++) {
        const at = (i >> 6) * 4; // BLOCK_PX is 2^6
        sums[at]! += red[i]!;
        sums[at + 1]! += green[i]!;
        sums[at + 2]! += blue[i]!;
        sums[at + 3]! += background[i]!;
      }
    }
    for (let at = 0; at < sums.length; at += 4) {
      const pixels = BLOCK_PX ** 2;
      if (sums[at + 3]! < LEAST_SHARE * pixels) continue;
      const mean: Vector3 = [sums[at]! / pixels, sums[at + 1]! / pixels, sums[at + 2]! / pixels];
      const xyz = transformVector3(toXyz, mean);
      if (xyz[1] > 0) found.push(xyz);
    }
  }
  return found.length < 2 ? null : figuresOf(found);
}

function figuresOf(blocks: readonly Vector3[]): BackgroundFigures {
  const stops = blocks.map(([, luminance]) => Math.log2(luminance));
  const sum = [0, 1, 2].map((at) => blocks.reduce((total, xyz) => total + xyz[at]!, 0));
  const middle = xyzToUvPrime(sum[0]!, sum[1]!, sum[2]!);
  const away = blocks.map((xyz) => {
    const { uPrime, vPrime } = xyzToUvPrime(...xyz);
    return Math.hypot(uPrime - middle.uPrime, vPrime - middle.vPrime);
  });
  return {
    spreadEv: quantile(stops, 0.995) - quantile(stops, 0.005),
    deltaUv: quantile(away, 0.995),
    belowWhiteEv: -quantile(stops, 0.5),
    blocks: blocks.length,
  };
}
