import { invertMatrix3, type Matrix3, multiplyMatrix3, transformVector3 } from '../numeric/matrix3.ts';
import { type ChromaticityXy, xyToXyz } from './chromaticity.ts';

/**
 * XYZ to the sharpened cone responses of the Bradford transform.
 * Source: ISO 15076-1 (ICC.1:2010), annex E, "linearized Bradford", as remembered; the same nine numbers stand in
 * the library that a test holds against these.
 */
const CONE_RESPONSE: Matrix3 = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];

/**
 * Adapts XYZ from one white to another by linear Bradford: the first white (Y = 1) becomes the second (Y = 1).
 * Both are CIE 1931 x, y. From a white to itself is the unit matrix within rounding.
 */
export function bradfordMatrix(fromWhite: ChromaticityXy, toWhite: ChromaticityXy): Matrix3 {
  // Division cannot be zero: every real white has cone responses above 0.
  const from = transformVector3(CONE_RESPONSE, xyToXyz(fromWhite));
  const to = transformVector3(CONE_RESPONSE, xyToXyz(toWhite));
  const gains: Matrix3 = [to[0] / from[0], 0, 0, 0, to[1] / from[1], 0, 0, 0, to[2] / from[2]];
  return multiplyMatrix3(invertMatrix3(CONE_RESPONSE), multiplyMatrix3(gains, CONE_RESPONSE));
}
