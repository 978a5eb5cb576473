import { LIGHT_OF_CODE } from '../colour/srgb-code-light.ts';
import { srgbEncode } from '../colour/srgb-curve.ts';
import type { RgbaPicture } from '../intake/platform.ts';

/** Averages a picture's light down to so many pixels along its longer side; a smaller one stays as it is. */
export function shrunkPicture(picture: RgbaPicture, longestPx: number): RgbaPicture {
  const { widthPx, heightPx, samples } = picture;
  const scale = longestPx / Math.max(widthPx, heightPx);
  if (scale >= 1) return picture;
  const [width, height] = [
    Math.max(1, Math.round(widthPx * scale)),
    Math.max(1, Math.round(heightPx * scale)),
  ];
  const sums = new Float64Array(width * height * 4);
  for (let y = 0, from = 0; y < heightPx; y++) {
    const row = Math.floor((y * height) / heightPx) * width;
    for (let x = 0; x < widthPx; x++, from += 4) {
      const at = (row + Math.floor((x * width) / widthPx)) * 4;
      sums[at] = sums[at]! + LIGHT_OF_CODE[samples[from]!]!;
      sums[at + 1] = sums[at + 1]! + LIGHT_OF_CODE[samples[from + 1]!]!;
      sums[at + 2] = sums[at + 2]! + LIGHT_OF_CODE[samples[from + 2]!]!;
      sums[at + 3] = sums[at + 3]! + 1;
    }
  }
  const shrunk = new Uint8ClampedArray(width * height * 4);
  for (let at = 0; at < shrunk.length; at += 4) {
    for (let channel = 0; channel < 3; channel++)
      shrunk[at + channel] = 255 * srgbEncode(sums[at + channel]! / sums[at + 3]!);
    shrunk[at + 3] = 255;
  }
  return { widthPx: width, heightPx: height, samples: shrunk };
}
