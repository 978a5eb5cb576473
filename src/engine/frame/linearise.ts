import { shotFacts } from '../intake/shot-facts.ts';
import type { StoredImage } from '../intake/stored-image.ts';
import type { CameraResponse } from '../response/camera-response.ts';
import { responseNotUsed, responseSays } from '../response/response-says.ts';
import { checkLight } from './check-light.ts';
import { codeLimits } from './code-limits.ts';
import { interpretColour } from './interpret-colour.ts';
import { type LightDoubt, NO_DOUBT } from './light-doubt.ts';
import { lightOfCodes } from './light-of-codes.ts';
import { isLinearTable } from './light-table.ts';
import type { LinearFrame } from './linear-frame.ts';
import { lineariseRaw } from './linearise-raw.ts';

/**
 * Gives a stored picture its meaning as light: a table from code to light per channel, and the matrix to XYZ. The
 * samples themselves are handed on, not copied. Only 16 bits coded linearly count as the scene's own light.
 *
 * @throws {@link EngineError} `unreadable-file` where a code stands for no light.
 * @param response - the camera's, checked; gone by where the file is coded for display in 8 bits.
 */
export function linearise(
  stored: StoredImage,
  response?: CameraResponse | null,
): { frame: LinearFrame; colourProfile: string } {
  if (stored.raw) return lineariseRaw(stored, stored.raw, response ? [responseNotUsed(16)] : []);
  const { widthPx, heightPx, channels, bitsPerSample, samples, orientation } = stored;
  const { space, toXyz, name, says } = interpretColour(stored);
  const used = response && responseFits(stored) ? response : null;
  const lightAtCode = lightOfCodes(stored, bitsPerSample, used);
  const { throughTables } = stored;
  const isLinear = !throughTables && Object.values(lightAtCode).every(isLinearTable); // as the file is coded
  const isSceneLinear = isLinear && bitsPerSample === 16;
  const basis = used
    ? responseSays(used, shotFacts(stored.exif).model)
    : isSceneLinear
      ? SCENE_LINEAR
      : isLinear
        ? LINEAR_IN_8_BITS
        : TONE_CURVE_NOT_UNDONE;
  const notUsed =
    response && !used ? [throughTables ? RESPONSE_AND_TABLES : responseNotUsed(bitsPerSample)] : [];
  const frame: LinearFrame = {
    widthPx,
    heightPx,
    channels,
    bitsPerSample,
    samples,
    lightAtCode,
    ...(throughTables
      ? { clipCode: NEVER_BY_CODE, floorCode: 0, fileCodes: throughTables }
      : codeLimits(stored)),
    toXyz,
    space,
    orientation,
    jpegDcSteps: stored.jpegDcSteps,
    light: used ? 'response-recovered' : isSceneLinear ? 'scene-linear' : 'display-decoded',
    lightSays: [says, basis, ...notUsed, ...(stored.readingSays ?? [])].join(' '),
    doubt: {
      ...NO_DOUBT,
      ...(stored.isLossy && { codingEv: LOSSY_CODING_EV }),
      ...(used
        ? { responseEv: used.plusMinusEv, ...seenBy(used, lightAtCode) }
        : { toneCurve: isLinear ? 'none' : toneCurveDoubt(stored) }),
    },
  };
  checkLight(frame);
  return { frame, colourProfile: name };
}

/** The light between the codes that a response's bracket showed: green's, since luminance is mostly green. */
function seenBy(
  { madeFrom: { codes } }: CameraResponse,
  { green }: LinearFrame['lightAtCode'],
): Pick<LightDoubt, 'responseSeen'> {
  if (!codes) return {};
  const [low, high] = codes.green;
  return { responseSeen: [green[low]!, green[high]!] };
}

/** Codes may be written in another depth than the samples have: what counts is whether 8 bits were a display's. */
export function responseFits(stored: StoredImage): boolean {
  return stored.bitsPerSample === 8 && !Object.values(lightOfCodes(stored, 8)).every(isLinearTable);
}

/** Above every code: which pixels were clipped is marked one by one. */
const NEVER_BY_CODE = 65536;

const RESPONSE_AND_TABLES =
  'The camera’s response was not used: this file’s light is read by its profile’s tables.';

/**
 * Measured on eight smooth fields of 0.6 stop, with and without noise, as WebP and AVIF of qualities 50 to 100: spreads were
 * up to 0.018 stop off. A JPEG's steps are known from its own tables instead.
 */
const LOSSY_CODING_EV = 0.02;

const SCENE_LINEAR =
  'Its 16 bits are coded linearly and taken as the light itself; a tone curve laid on before saving could not be seen here.';

const LINEAR_IN_8_BITS =
  'It is coded linearly, but in 8 bits: from an eighth of white down one code is 0.04 stop or more.';

const TONE_CURVE_NOT_UNDONE = 'A tone curve that the camera or converter laid on is not undone.';

/** A camera or telephone writes JPEG and HEIC by itself, in its picture style; other files were saved by somebody who chose. */
function toneCurveDoubt({ format }: StoredImage): LightDoubt['toneCurve'] {
  return format === 'jpeg' || format === 'heic' ? 'counted' : 'told';
}
