import { invertMatrix3, type Matrix3, multiplyMatrix3, transformVector3 } from '../numeric/matrix3.ts';
import { type ChromaticityXy, xyToXyz } from './chromaticity.ts';
import type { RgbPrimaries } from './linear-rgb-space.ts';

/**
 * Linear RGB to XYZ, such that RGB 1, 1, 1 is the white at Y = 1. Nothing is adapted: multiply by
 * `bradfordMatrix(white, D65)` for that.
 * Source: SMPTE RP 177-1993, "Derivation of basic television color equations".
 *
 * @throws RangeError where the primaries lie on one line, or one is NaN.
 */
export function rgbToXyzMatrix({ red, green, blue }: RgbPrimaries, white: ChromaticityXy): Matrix3 {
  const [xr, yr] = red;
  const [xg, yg] = green;
  const [xb, yb] = blue;
  // The matrix of three colours on one line is singular but for rounding, which an inverse would blow up.
  const twiceTheirTriangle = (xg - xr) * (yb - yr) - (xb - xr) * (yg - yr);
  if (!(Math.abs(twiceTheirTriangle) > 1e-9))
    throw new RangeError(`primaries ${red}; ${green}; ${blue} span no triangle, and no colour space`);
  const unscaled: Matrix3 = [xr, xg, xb, yr, yg, yb, 1 - xr - yr, 1 - xg - yg, 1 - xb - yb];
  const [r, g, b] = transformVector3(invertMatrix3(unscaled), xyToXyz(white));
  return multiplyMatrix3(unscaled, [r, 0, 0, 0, g, 0, 0, 0, b]);
}
