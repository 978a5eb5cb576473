import { quantile } from '../../../src/engine/numeric/quantile.ts';
import { uvPrimeOfXyz, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';

const WHITE = uvPrimeOfXyz(xyzOfSrgbLight([1, 1, 1]));

/** Stops of luminance from the 0.5th to the 99.5th percentile of blocks, and their farthest distance from white. */
export function blocksOfLight(
  light: Float64Array,
  widthPx: number,
  isAsked: (pixel: number) => boolean,
  blockPx = 64,
): { ev: number; uv: number; blocks: number } {
  const heightPx = light.length / 3 / widthPx;
  const levels: number[] = [];
  let uv = 0;
  for (let top = 0; top + blockPx <= heightPx; top += blockPx) {
    for (let left = 0; left + blockPx <= widthPx; left += blockPx) {
      const sum: [number, number, number] = [0, 0, 0];
      let isWhole = true;
      for (let row = top; row < top + blockPx; row++) {
        for (let column = left; column < left + blockPx; column++) {
          const pixel = row * widthPx + column;
          if (!isAsked(pixel)) isWhole = false;
          for (const channel of [0, 1, 2] as const) sum[channel] += light[pixel * 3 + channel]!;
        }
      }
      if (!isWhole) continue;
      const xyz = xyzOfSrgbLight(sum);
      levels.push(Math.log2(xyz[1]));
      const [u, v] = uvPrimeOfXyz(xyz);
      uv = Math.max(uv, Math.hypot(u - WHITE[0], v - WHITE[1]));
    }
  }
  return { ev: quantile(levels, 0.995) - quantile(levels, 0.005), uv, blocks: levels.length };
}
