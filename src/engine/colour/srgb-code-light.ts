import { srgbDecode } from './srgb-curve.ts';

/** Linear light of each 8-bit code of sRGB. */
export const LIGHT_OF_CODE = Float64Array.from({ length: 256 }, (_, code) => srgbDecode(code / 255));

/** Luminance of linear light in sRGB's primaries. Source: IEC 61966-2-1:1999. */
export function luminanceOf(red: number, green: number, blue: number): number {
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
