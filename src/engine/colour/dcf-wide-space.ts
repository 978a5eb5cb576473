import type { LinearRgbSpace } from './linear-rgb-space.ts';
import { D65 } from './white-points.ts';

/**
 * The optional wide space that cameras' files may be in, and say so by Exif alone.
 * Source: DCF 2.0 (CIPA DC-009) and Exif (CIPA DC-008), as remembered.
 */
export const DCF_WIDE_RGB: LinearRgbSpace = {
  name: 'DCF optional colour space',
  primaries: { red: [0.64, 0.33], green: [0.21, 0.71], blue: [0.15, 0.06] },
  white: D65,
};

/** 563/256: 2.2 as profiles of version 2 round it, and as files in this space are coded. */
export const DCF_WIDE_EXPONENT = 2.19921875;
