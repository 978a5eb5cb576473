import {
  checkCount,
  checkedObject,
  checkNumber,
  checkNumberList,
  checkNumbers,
  checkOneOf,
  checkText,
  type Fields,
  refuseProfile,
} from './checked-fields.ts';
import { PROFILE_REFERENCES, type Profile } from './profile.ts';

/** Characters of JSON; a profile has hardly any that take more than a byte. */
const MOST_CHARACTERS = 1_000_000;
const SCHEMA = 'evenfield.profile/1';
const LIGHTS = ['scene-linear', 'response-recovered', 'display-decoded'];

/**
 * Reads a profile from its JSON text, or from the value that such text stands for, and checks every field that the
 * correction hangs on. Fields it does not know are kept and not looked at.
 *
 * @throws {@link EngineError} `wrong-profile`, naming the field.
 */
export function parseProfile(source: unknown): Profile {
  const fields = checkedObject(typeof source === 'string' ? parsedJson(source) : source, 'the profile');
  if (fields.schema !== SCHEMA) refuseProfile('schema', fields.schema, SCHEMA);
  checkMadeFrom(checkedObject(fields.madeFrom, 'madeFrom'));
  checkColourSpace(checkedObject(fields.colourSpace, 'colourSpace'));
  checkOneOf(fields.light, 'light', LIGHTS);
  checkOneOf(fields.reference, 'reference', PROFILE_REFERENCES);
  const neutral = checkedObject(fields.neutral, 'neutral');
  for (const channel of ['red', 'green', 'blue']) {
    checkNumber(neutral[channel], `neutral.${channel}`);
    if (!((neutral[channel] as number) > 0)) refuseProfile(`neutral.${channel}`, neutral[channel], 'above 0');
  }
  checkLattice(checkedObject(fields.lattice, 'lattice'));
  const model = checkedObject(fields.model, 'model');
  checkText(model.name, 'model.name');
  checkNumbers(model, 'model', ['terms', 'heldOutEv', 'residualSpreadEv']);
  checkGradients(fields);
  return fields as unknown as Profile;
}

function parsedJson(text: string): unknown {
  if (text.length > MOST_CHARACTERS) {
    refuseProfile('the file', `${text.length} characters long`, `at most ${MOST_CHARACTERS}`);
  }
  try {
    return JSON.parse(text);
  } catch {
    return refuseProfile('the file', 'no JSON', 'JSON');
  }
}

function checkMadeFrom(madeFrom: Fields): void {
  checkText(madeFrom.name, 'madeFrom.name');
  if (madeFrom.sha256 !== null) checkText(madeFrom.sha256, 'madeFrom.sha256');
  checkCount(madeFrom.widthPx, 'madeFrom.widthPx', 1);
  checkCount(madeFrom.heightPx, 'madeFrom.heightPx', 1);
  checkCount(madeFrom.orientation, 'madeFrom.orientation', 1);
  if (madeFrom.exposure !== null) {
    const exposure = checkedObject(madeFrom.exposure, 'madeFrom.exposure');
    checkNumbers(exposure, 'madeFrom.exposure', ['seconds', 'fNumber', 'iso', 'focalLengthMm'], true);
    if (exposure.takenAt !== null) checkText(exposure.takenAt, 'madeFrom.exposure.takenAt');
  }
  const region = checkedObject(madeFrom.region, 'madeFrom.region');
  checkNumbers(region, 'madeFrom.region', ['left', 'top', 'right', 'bottom']);
}

function checkColourSpace(space: Fields): void {
  checkText(space.name, 'colourSpace.name');
  if (space.name === 'camera-native') {
    checkText(space.camera, 'colourSpace.camera');
    return;
  }
  const primaries = checkedObject(space.primaries, 'colourSpace.primaries');
  for (const channel of ['red', 'green', 'blue']) {
    checkNumberList(primaries[channel], `colourSpace.primaries.${channel}`, 2);
  }
  checkNumberList(space.white, 'colourSpace.white', 2);
}

function checkLattice(lattice: Fields): void {
  // node 0 lies on one edge of the frame and the last on the other: there are two at least
  checkCount(lattice.columns, 'lattice.columns', 2);
  checkCount(lattice.rows, 'lattice.rows', 2);
  const nodes = (lattice.columns as number) * (lattice.rows as number);
  for (const channel of ['red', 'green', 'blue'])
    checkNumberList(lattice[channel], `lattice.${channel}`, nodes);
}

function checkGradients(fields: Fields): void {
  const gradient = checkedObject(fields.gradient, 'gradient');
  checkNumbers(gradient, 'gradient', ['ev', 'explains', 'plusMinusEv']);
  checkNumbers(gradient, 'gradient', ['angleDeg', 'mired', 'duv', 'plusMinusDeg', 'plusMinusMired'], true);
  for (const end of ['from', 'to']) {
    checkNumbers(checkedObject(gradient[end], `gradient.${end}`), `gradient.${end}`, ['x', 'y']);
  }
  const tint = checkedObject(fields.tintGradient, 'tintGradient');
  checkNumbers(tint, 'tintGradient', ['deltaUv']);
  checkNumbers(tint, 'tintGradient', ['angleDeg', 'mired', 'duv'], true);
}
