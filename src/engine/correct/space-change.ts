import { bradfordMatrix } from '../colour/bradford.ts';
import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { D65 } from '../colour/white-points.ts';
import { EngineError } from '../engine-error.ts';
import type { LinearFrame } from '../frame/linear-frame.ts';
import {
  invertMatrix3,
  type Matrix3,
  multiplyMatrix3,
  transformVector3,
  type Vector3,
} from '../numeric/matrix3.ts';
import type { Profile } from '../profile/profile.ts';

/** How a frame's linear RGB becomes the profile's and back. */
export interface SpaceChange {
  readonly there: Matrix3;
  readonly back: Matrix3;
}

/** Chromaticities that come from a profile's rounded colorants differ by less than this where they mean the same. */
const SAME_XY = 0.001;

/**
 * The matrices between a frame's linear RGB and that in which the gains hold; `null` where both are one.
 *
 * @throws {@link EngineError} `wrong-profile` for gains of a camera's own colours on any other file.
 */
export function spaceChange(frame: LinearFrame, { colourSpace }: Profile): SpaceChange | null {
  const { space } = frame;
  if (!('primaries' in colourSpace)) {
    if (space.name === colourSpace.name && cameraOf(space) === colourSpace.camera) return null;
    throw new EngineError(
      'wrong-profile',
      `This profile holds gains for the own colours of ${colourSpace.camera}, and the frame is in ${space.name}. ` +
        'Make a profile from a blank frame that was developed or saved as this frame was.',
      { profile: colourSpace.camera, frame: space.name },
    );
  }
  const own = [space.primaries.red, space.primaries.green, space.primaries.blue, space.white];
  const its = [
    colourSpace.primaries.red,
    colourSpace.primaries.green,
    colourSpace.primaries.blue,
    colourSpace.white,
  ];
  const isSame = own.every(
    ([x, y], i) => Math.abs(x - its[i]![0]) < SAME_XY && Math.abs(y - its[i]![1]) < SAME_XY,
  );
  if (isSame) return null;
  const there = multiplyMatrix3(invertMatrix3(profileToXyz(colourSpace)), frame.toXyz);
  return { there, back: invertMatrix3(there) };
}

/** One colour times three gains, in the linear RGB where they hold. */
export function gained(light: Vector3, gain: Vector3, space: SpaceChange | null): Vector3 {
  const times = ([red, green, blue]: Vector3): Vector3 => [red * gain[0], green * gain[1], blue * gain[2]];
  return space ? transformVector3(space.back, times(transformVector3(space.there, light))) : times(light);
}

/** The share of red, green and blue in the luminance of the profile's linear RGB. */
export function luminanceWeights({ colourSpace }: Profile, frame: LinearFrame): Vector3 {
  const m = 'primaries' in colourSpace ? profileToXyz(colourSpace) : frame.toXyz;
  return [m[3], m[4], m[5]];
}

export function profileToXyz({
  primaries,
  white,
}: Extract<Profile['colourSpace'], { primaries: unknown }>): Matrix3 {
  return multiplyMatrix3(bradfordMatrix(white, D65), rgbToXyzMatrix(primaries, white));
}

function cameraOf(space: object): unknown {
  return 'camera' in space ? space.camera : undefined;
}
