import { bradfordMatrix } from '../colour/bradford.ts';
import type { LinearRgbSpace } from '../colour/linear-rgb-space.ts';
import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { srgbDecode } from '../colour/srgb-curve.ts';
import { SRGB } from '../colour/srgb-space.ts';
import { D65 } from '../colour/white-points.ts';
import { WIDE_RGB, WIDE_RGB_EXPONENT } from '../colour/wide-space.ts';
import { invertMatrix3, type Matrix3, multiplyMatrix3 } from '../numeric/matrix3.ts';
import { type MadeCurve, madeGreyProfile, madeProfile } from './made-profile.ts';
import type { WrittenFormat } from './write-picture.ts';

/** How a picture in a camera's own colours is written. */
export interface RawCoding {
  /** From a code, 0 to 1, to linear light of the space that is written. */
  readonly decode: (code: number) => number;
  /** From the camera's balanced linear RGB to that space; `null` for grey. */
  readonly toWritten: Matrix3 | null;
  readonly iccProfile: Uint8Array;
  readonly says: string;
}

/**
 * Wide RGB for TIFF and PNG, which an editor goes on from; sRGB for a JPEG, which is for looking at: in the few codes of
 * 8 bits a wide space would show steps, and dull colours wherever profiles are not gone by.
 *
 * @param toXyz - the camera's balanced linear RGB to XYZ under D65
 */
export function rawCoding(toXyz: Matrix3, format: WrittenFormat, isGrey: boolean): RawCoding {
  const [space, curve, name]: [LinearRgbSpace, MadeCurve, string] =
    format === 'jpeg' ? [SRGB, 'srgb', 'sRGB'] : [WIDE_RGB, { exponent: WIDE_RGB_EXPONENT }, 'Wide RGB'];
  const own = multiplyMatrix3(bradfordMatrix(space.white, D65), rgbToXyzMatrix(space.primaries, space.white));
  return {
    decode: format === 'jpeg' ? srgbDecode : (code) => code ** WIDE_RGB_EXPONENT,
    toWritten: isGrey ? null : multiplyMatrix3(invertMatrix3(own), toXyz),
    iccProfile:
      isGrey && format !== 'jpeg'
        ? madeGreyProfile(`Grey, exponent ${WIDE_RGB_EXPONENT}`, curve)
        : madeProfile({ ...space, name }, curve),
    says:
      format === 'jpeg'
        ? 'The raw file was developed to a picture in sRGB, by its own white balance; colours beyond sRGB are cut off.'
        : 'The raw file was developed to a picture in a wide RGB space, by its own white balance, and carries a profile that says so; programs that go by no profile show it dull.',
  };
}
