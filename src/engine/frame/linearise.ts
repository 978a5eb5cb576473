import type { StoredImage } from '../intake/stored-image.ts';
import { hiddenStops } from './hidden-stops.ts';
import { interpretColour } from './interpret-colour.ts';
import { lightOfCodes } from './light-of-codes.ts';
import { isLinearTable } from './light-table.ts';
import type { LinearFrame } from './linear-frame.ts';

/**
 * Gives a stored picture its meaning as light: a table from code to light per channel, and the matrix to XYZ. The
 * samples themselves are handed on, not copied. Only 16 bits coded linearly count as the scene's own light.
 */
export function linearise(stored: StoredImage): { frame: LinearFrame; colourProfile: string } {
  const { widthPx, heightPx, channels, bitsPerSample, samples, orientation } = stored;
  const { space, toXyz, name, says } = interpretColour(stored);
  const lightAtCode = lightOfCodes(stored, bitsPerSample);
  const isLinear = Object.values(lightAtCode).every(isLinearTable);
  const isSceneLinear = isLinear && bitsPerSample === 16;
  const lightSays = `${says} ${isSceneLinear ? SCENE_LINEAR : isLinear ? LINEAR_IN_8_BITS : TONE_CURVE_COST}`;
  const frame: LinearFrame = {
    widthPx,
    heightPx,
    channels,
    bitsPerSample,
    samples,
    lightAtCode,
    ...codeLimits(stored),
    toXyz,
    space,
    orientation,
    jpegDcSteps: stored.jpegDcSteps,
    light: isSceneLinear ? 'scene-linear' : 'display-decoded',
    lightSays: [lightSays, ...(stored.readingSays ?? [])].join(' '),
  };
  return { frame, colourProfile: name };
}

const SCENE_LINEAR =
  'Its 16 bits are coded linearly and taken as the light itself; a tone curve laid on before saving could not be seen here.';

const LINEAR_IN_8_BITS =
  'It is coded linearly, but in 8 bits: from an eighth of white down one code is 0.04 stop or more.';

/** The estimate for a stop decoded just below white, where a shoulder hides most. */
const COST_BELOW_WHITE = hiddenStops(1, 0.5).toFixed(1);

const TONE_CURVE_COST =
  'A tone curve that the camera or converter laid on is not undone; by an estimate it hides about ' +
  `${COST_BELOW_WHITE} stop of falloff in the first stop below white, and hardly any below that.`;

/**
 * Where codes stop telling light. JPEG's rounding between colour models lets clipped white come back one code lower;
 * 12-bit light stretched to 16 bits ends at 65520.
 */
function codeLimits({ format, bitsPerSample }: StoredImage): { clipCode: number; floorCode: number } {
  if (bitsPerSample === 16) return { clipCode: 65520, floorCode: 0 };
  return format === 'jpeg' ? { clipCode: 254, floorCode: 1 } : { clipCode: 255, floorCode: 0 };
}
