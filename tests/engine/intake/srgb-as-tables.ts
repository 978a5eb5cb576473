import { srgbDecode } from '../../../src/engine/colour/srgb-curve.ts';
import { tableProfile } from './table-profile.ts';

/** sRGB as tables: its own curve, and its colours under the connection space's white. */
export const SRGB_AS_TABLES = tableProfile({
  name: 'As tables',
  major: 2,
  connection: 'XYZ ',
  exponent: 1,
  curve: srgbDecode,
  colourAt: ([r = 0, g = 0, b = 0]) => [
    0.43598 * r + 0.38515 * g + 0.14307 * b,
    0.22252 * r + 0.71687 * g + 0.06061 * b,
    0.01392 * r + 0.09708 * g + 0.7139 * b,
  ],
});
