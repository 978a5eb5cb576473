import type { LinearRgbSpace } from './linear-rgb-space.ts';
import { D65 } from './white-points.ts';

/** Source: IEC 61966-2-1:1999; the primaries of Rec. ITU-R BT.709. */
export const SRGB: LinearRgbSpace = {
  name: 'sRGB',
  primaries: { red: [0.64, 0.33], green: [0.3, 0.6], blue: [0.15, 0.06] },
  white: D65,
};
