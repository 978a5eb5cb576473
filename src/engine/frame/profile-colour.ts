import { bradfordMatrix } from '../colour/bradford.ts';
import type { ChromaticityXy } from '../colour/chromaticity.ts';
import type { LinearRgbSpace } from '../colour/linear-rgb-space.ts';
import { D65 } from '../colour/white-points.ts';
import type { IccProfile } from '../intake/read-icc-profile.ts';
import {
  invertMatrix3,
  type Matrix3,
  multiplyMatrix3,
  transformVector3,
  type Vector3,
} from '../numeric/matrix3.ts';

/** A space's chromaticities, and its linear RGB to XYZ adapted to D65. */
export interface ColourOfSpace {
  readonly space: LinearRgbSpace;
  readonly toXyz: Matrix3;
}

/**
 * Turns a matrix profile's colorants (XYZ under D50) into XYZ under D65 and into the native space's chromaticities.
 *
 * Colorants are rounded to 1/65536 and add up to D50 only nearly. The adaptation therefore starts from what they do
 * add up to rather than from nominal D50, so that RGB 1, 1, 1 is exactly D65 at Y = 1 and no neutral file is tinted.
 *
 * The native white is what `chad` was made from; where it is absent in a version 2 profile, its media white (version
 * 4 writes D50 there whatever the white was).
 */
export function profileColour(profile: Extract<IccProfile, { kind: 'matrix' }>): ColourOfSpace {
  const { colorants, description } = profile;
  const sum = transformVector3(colorants, [1, 1, 1]);
  const unit = colorants.map((value) => value / sum[1]) as unknown as Matrix3;
  const native = multiplyMatrix3(nativeFromProfile(profile, xy(sum)), unit);
  return {
    toXyz: multiplyMatrix3(bradfordMatrix(xy(sum), D65), unit),
    space: {
      name: description,
      primaries: {
        red: xy([native[0], native[3], native[6]]),
        green: xy([native[1], native[4], native[7]]),
        blue: xy([native[2], native[5], native[8]]),
      },
      white: xy(transformVector3(native, [1, 1, 1])),
    },
  };
}

function nativeFromProfile(
  { adaptation, mediaWhite, majorVersion }: Extract<IccProfile, { kind: 'matrix' }>,
  profileWhite: ChromaticityXy,
): Matrix3 {
  if (adaptation) return invertMatrix3(adaptation);
  const statesWhite = majorVersion < 4 && mediaWhite?.every((value) => value > 0);
  return bradfordMatrix(profileWhite, statesWhite ? xy(mediaWhite!) : profileWhite);
}

function xy([x, y, z]: Vector3): ChromaticityXy {
  const total = x + y + z;
  return [x / total, y / total];
}
