import type { LinearRgbSpace } from '../colour/linear-rgb-space.ts';
import { D65 } from '../colour/white-points.ts';
import type { StoredImage } from '../intake/stored-image.ts';
import type { RawCodes, StoredRaw } from '../intake/stored-raw.ts';
import type { Matrix3, Vector3 } from '../numeric/matrix3.ts';
import { NO_DOUBT } from './light-doubt.ts';
import type { LinearFrame } from './linear-frame.ts';
import { rawColour } from './raw-colour.ts';

/**
 * Gives a camera's own samples their meaning: light is what lies above black, as a share of what lies between black and
 * white, times the white balance. It is the scene's own light: no curve was ever laid on.
 */
export function lineariseRaw(
  stored: StoredImage,
  raw: StoredRaw,
  alsoSays: readonly string[] = [],
): { frame: LinearFrame; colourProfile: string } {
  const { widthPx, heightPx, channels, samples, orientation } = stored;
  const { toXyz, multipliers, says } = rawColour(raw.colour);
  const isGrey = channels < 3;
  const [red, green, blue] = isGrey ? greyTables(raw.codes) : tablesOf(raw.codes, multipliers);
  const frame: LinearFrame = {
    ...{ widthPx, heightPx, channels, bitsPerSample: 16, samples, orientation, toXyz },
    lightAtCode: { red, green, blue },
    clipLight: isGrey ? fullLight(raw.codes, [1, 1, 1]) : fullLight(raw.codes, multipliers),
    clipCode: raw.codes.clip,
    floorCode: raw.codes.black,
    blackMeanCode: raw.codes.blackMean,
    space: cameraSpace(raw.camera, toXyz),
    jpegDcSteps: null,
    light: 'scene-linear',
    // black is in doubt in the sensor's codes; luminance is mostly green
    doubt: { ...NO_DOUBT, blackLight: raw.blackDoubt * (isGrey ? 1 : multipliers[1]) },
    lightSays: [SCENE_LINEAR, isGrey ? GREY : says, ...alsoSays, ...(stored.readingSays ?? [])].join(' '),
  };
  return { frame, colourProfile: `the camera’s own${raw.camera ? ` (${raw.camera})` : ''}` };
}

const SCENE_LINEAR =
  'A camera’s raw file: its sensor’s counts are the light itself, less black; no tone curve lies on them.';
const GREY = 'It holds no colours.';

type Tables = readonly [Float64Array, Float64Array, Float64Array];

function greyTables(codes: RawCodes): Tables {
  const [table] = tablesOf(codes, [1, 1, 1]);
  return [table, table, table];
}

function tablesOf({ zero, white }: RawCodes, multipliers: Vector3): Tables {
  const table = (channel: 0 | 1 | 2) => {
    const light = new Float64Array(65536);
    const range = white[channel] - zero[channel];
    for (let code = 0; code < light.length; code++)
      light[code] = multipliers[channel] * Math.min(1, (code - zero[channel]) / range);
    return light;
  };
  return [table(0), table(1), table(2)];
}

function fullLight(
  { zero, white, clip, full = [clip, clip, clip] }: RawCodes,
  multipliers: Vector3,
): Vector3 {
  return multipliers.map(
    (times, i) => times * Math.min(1, (full[i]! - zero[i]!) / (white[i]! - zero[i]!)),
  ) as unknown as Vector3;
}

/** Its primaries are the matrix's own, and need not be colours that there are. */
function cameraSpace(camera: string, toXyz: Matrix3): LinearRgbSpace {
  const xy = (column: 0 | 1 | 2) => {
    const [x, y, z] = [toXyz[column], toXyz[column + 3]!, toXyz[column + 6]!];
    return [x / (x + y + z), y / (x + y + z)] as const;
  };
  return {
    name: 'camera-native',
    camera: camera || 'an unnamed camera',
    primaries: { red: xy(0), green: xy(1), blue: xy(2) },
    white: D65,
  };
}
