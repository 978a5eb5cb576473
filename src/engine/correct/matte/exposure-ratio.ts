import type { Vector3 } from '../../numeric/matrix3.ts';
import { halfSampleMode } from '../half-sample-mode.ts';
import type { LightPlanes } from './light-planes.ts';

const BLOCK = 8;
/** Light below this part of white says nothing of a ratio. */
const LEAST_LIGHT = 1 / 4096;

/**
 * Log2 of how much more light a frame has than the blank, per channel: what most blocks agree on, since a subject's
 * ratio changes from place to place and a shadow's does so too. `null` where no block has light in both.
 */
export function exposureRatio(frame: LightPlanes, blank: LightPlanes, whiteLight: number): Vector3 | null {
  const ratios = [0, 1, 2].map((channel) => {
    const [own, its] = [frame.light[channel]!, blank.light[channel]!];
    const stops: number[] = [];
    for (let top = 0; top + BLOCK <= frame.rows; top += BLOCK) {
      for (let left = 0; left + BLOCK <= frame.columns; left += BLOCK) {
        let a = 0;
        let b = 0;
        let highest = 0;
        for (let y = top; y < top + BLOCK; y++) {
          for (let at = y * frame.columns + left; at < y * frame.columns + left + BLOCK; at++) {
            a += own[at]!;
            b += its[at]!;
            highest = Math.max(highest, own[at]!, its[at]!);
          }
        }
        const least = LEAST_LIGHT * BLOCK ** 2;
        if (a > least && b > least && highest < whiteLight) stops.push(Math.log2(a / b));
      }
    }
    return halfSampleMode(stops);
  });
  return ratios.every(Number.isFinite) ? (ratios as unknown as Vector3) : null;
}
