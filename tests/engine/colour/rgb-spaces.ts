import type { LinearRgbSpace } from '../../../src/engine/colour/linear-rgb-space.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { D50, D65 } from '../../../src/engine/colour/white-points.ts';

// Quoted as remembered; a test holds the matrix of each space against that of a general-purpose library.

/** Source: the primaries of SMPTE RP 431-2 with the white D65 (SMPTE EG 432-1). */
export const DISPLAY_P3: LinearRgbSpace = {
  name: 'Display P3',
  primaries: { red: [0.68, 0.32], green: [0.265, 0.69], blue: [0.15, 0.06] },
  white: D65,
};

/** Source: IEC 61966-2-5:2007. */
export const OP_RGB: LinearRgbSpace = {
  name: 'opRGB',
  primaries: { red: [0.64, 0.33], green: [0.21, 0.71], blue: [0.15, 0.06] },
  white: D65,
};

/** Source: Rec. ITU-R BT.2020, table 3. */
export const REC_2020: LinearRgbSpace = {
  name: 'Rec. 2020',
  primaries: { red: [0.708, 0.292], green: [0.17, 0.797], blue: [0.131, 0.046] },
  white: D65,
};

/** Source: ISO 22028-2 (reference output medium metric RGB). Its green and blue lie outside the visible. */
export const ROMM_RGB: LinearRgbSpace = {
  name: 'ROMM RGB',
  primaries: { red: [0.7347, 0.2653], green: [0.1596, 0.8404], blue: [0.0366, 0.0001] },
  white: D50,
};

export const RGB_SPACES: readonly LinearRgbSpace[] = [SRGB, DISPLAY_P3, OP_RGB, REC_2020, ROMM_RGB];
