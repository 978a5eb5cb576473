import { srgbDecode } from '../../src/engine/colour/srgb-curve.ts';

export type LinearRgb = readonly [red: number, green: number, blue: number];

/**
 * How colours look to those who lack one kind of cone, in linear sRGB. Source: G. M. Machado, M. M. Oliveira and
 * L. A. F. Fernandes, "A physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15(6),
 * 2009, severity 1.0; the coefficients as several public implementations give them alike.
 */
export const VISIONS = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const;

export type Vision = keyof typeof VISIONS;

/** sRGB codes of 0 to 255 as they look to one kind of vision. */
export function seenAs(vision: Vision, codes: readonly number[]): LinearRgb {
  const linear = codes.slice(0, 3).map((code) => srgbDecode(code / 255));
  const [red, green, blue] = VISIONS[vision].map((row) =>
    Math.min(1, Math.max(0, row[0] * linear[0]! + row[1] * linear[1]! + row[2] * linear[2]!)),
  );
  return [red!, green!, blue!];
}

/** Relative luminance, the Y row of IEC 61966-2-1:1999. */
export function luminanceOf([red, green, blue]: LinearRgb): number {
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** CIE 1976 L* of a relative luminance (ISO/CIE 11664-4). */
export function lightnessOf(luminance: number): number {
  return luminance > 216 / 24389 ? 116 * Math.cbrt(luminance) - 16 : (24389 / 27) * luminance;
}

/** Contrast of two luminances, 1 to 21 (WCAG 2.2, "contrast ratio"). */
export function contrastOf(a: number, b: number): number {
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}
