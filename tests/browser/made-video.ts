import { closeSync, openSync, writeSync } from 'node:fs';
import type { KnownField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';

export interface MadeVideo {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly picturesPerSecond: number;
  /** Light of each picture, and for how many pictures it is shown. */
  readonly shown: readonly { readonly field: KnownField; readonly pictures: number }[];
}

/** Pictures of one light differ by their noise, and repeat after so many. */
const DIFFERENT = 4;

/**
 * Writes a video without compression, for a camera that is made believe: YUV4MPEG2, 4:2:0, in the range from 16 to 235
 * and by the matrix of BT.601, as a feed without further notes is understood.
 */
export function writeVideo(path: string, { widthPx, heightPx, picturesPerSecond, shown }: MadeVideo): void {
  const file = openSync(path, 'w');
  writeSync(file, `YUV4MPEG2 W${widthPx} H${heightPx} F${picturesPerSecond}:1 Ip A1:1 C420jpeg\n`);
  let seed = 1;
  for (const { field, pictures } of shown) {
    const different = Array.from({ length: Math.min(pictures, DIFFERENT) }, () =>
      planes(field, widthPx, heightPx, seed++),
    );
    for (let i = 0; i < pictures; i++) {
      writeSync(file, 'FRAME\n');
      writeSync(file, different[i % different.length]!);
    }
  }
  closeSync(file);
}

function planes(field: KnownField, widthPx: number, heightPx: number, seed: number): Uint8Array {
  const how = { widthPx, heightPx, bits: 8, curve: 'srgb', electronsAtFull: 3000, seed } as const;
  const { samples } = renderFrame(field, how);
  const luma = widthPx * heightPx;
  const result = new Uint8Array(luma + luma / 2);
  for (let y = 0; y < heightPx; y += 2) {
    for (let x = 0; x < widthPx; x += 2) {
      let [blueSum, redSum] = [0, 0];
      for (const [right, down] of [
        [0, 0],
        [1, 0],
        [0, 1],
        [1, 1],
      ] as const) {
        const at = (y + down) * widthPx + x + right;
        const [r, g, b] = [samples[at * 3]!, samples[at * 3 + 1]!, samples[at * 3 + 2]!];
        const light = 0.299 * r + 0.587 * g + 0.114 * b;
        result[at] = Math.round(16 + (219 / 255) * light);
        blueSum += (b - light) / 1.772;
        redSum += (r - light) / 1.402;
      }
      const chroma = luma + (y / 2) * (widthPx / 2) + x / 2;
      result[chroma] = Math.round(128 + (224 / 255) * (blueSum / 4));
      result[chroma + luma / 4] = Math.round(128 + (224 / 255) * (redSum / 4));
    }
  }
  return result;
}
