// Source: IEC 61966-2-1:1999 with its rounded constants. 0.03928 in older texts is the draft's.

/**
 * Linear light, 0 to 1, of an sRGB value, 0 to 1. Below 0 the straight part goes on; above 1 the power does.
 * NaN in, NaN out.
 */
export function srgbDecode(value: number): number {
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}

/** The inverse of {@link srgbDecode}; at the joint the standard's rounding leaves a step of under 1e-7. */
export function srgbEncode(light: number): number {
  return light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055;
}
