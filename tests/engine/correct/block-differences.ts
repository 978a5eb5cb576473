import { ciede2000 } from '../../../src/engine/colour/ciede2000.ts';
import { xyzToLab } from '../../../src/engine/colour/lab.ts';
import { WHITE_XYZ, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';

const BLOCK = 8;

/** CIEDE2000 between the 8 × 8 means of two frames of linear light, for the blocks that are asked about. */
export function blockDifferences(
  a: Float64Array,
  b: Float64Array,
  widthPx: number,
  isAsked: (pixel: number) => boolean,
  asked: 'all' | 'any',
): number[] {
  const heightPx = a.length / 3 / widthPx;
  const found: number[] = [];
  for (let top = 0; top + BLOCK <= heightPx; top += BLOCK) {
    for (let left = 0; left + BLOCK <= widthPx; left += BLOCK) {
      const means = [
        [0, 0, 0],
        [0, 0, 0],
      ];
      let count = 0;
      for (let y = top; y < top + BLOCK; y++) {
        for (let x = left; x < left + BLOCK; x++) {
          const pixel = y * widthPx + x;
          if (isAsked(pixel)) count++;
          for (const channel of [0, 1, 2]) {
            means[0]![channel]! += a[pixel * 3 + channel]! / BLOCK ** 2;
            means[1]![channel]! += b[pixel * 3 + channel]! / BLOCK ** 2;
          }
        }
      }
      if (asked === 'all' ? count < BLOCK ** 2 : count === 0) continue;
      const [first, second] = means.map((mean) =>
        xyzToLab(xyzOfSrgbLight(mean as [number, number, number]), WHITE_XYZ),
      );
      found.push(ciede2000(first!, second!));
    }
  }
  return found;
}
