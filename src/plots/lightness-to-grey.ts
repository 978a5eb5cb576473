import { srgbEncode } from '../engine/colour/srgb-curve.ts';

/**
 * The sRGB code, 0 to 255, of a neutral grey of CIE lightness L* (0 to 100).
 * Source: ISO/CIE 11664-4, the inverse of L*.
 */
export function lightnessToGrey(lightness: number): number {
  const f = (lightness + 16) / 116;
  const y = lightness > 8 ? f ** 3 : (lightness * 27) / 24389;
  return Math.round(255 * srgbEncode(y));
}
