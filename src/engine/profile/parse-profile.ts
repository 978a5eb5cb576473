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
import { MOST_STOPS, PROFILE_REFERENCES, type Profile } from './profile.ts';

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
  if ((madeFrom.orientation as number) > 8)
    refuseProfile('madeFrom.orientation', madeFrom.orientation, '1 to 8');
  if (madeFrom.exposure !== null) {
    const exposure = checkedObject(madeFrom.exposure, 'madeFrom.exposure');
    checkNumbers(exposure, 'madeFrom.exposure', ['seconds', 'fNumber', 'iso', 'focalLengthMm'], true);
    if (exposure.takenAt !== null) checkText(exposure.takenAt, 'madeFrom.exposure.takenAt');
  }
  const region = checkedObject(madeFrom.region, 'madeFrom.region');
  checkNumbers(region, 'madeFrom.region', ['left', 'top', 'right', 'bottom']);
  const { left, top, right, bottom } = region as Record<string, number>;
  if (!(left! >= 0 && left! < right! && right! <= 1 && top! >= 0 && top! < bottom! && bottom! <= 1))
    refuseProfile('madeFrom.region', [left, top, right, bottom].join(', '), 'a part of the frame, 0 to 1');
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
  const { red, green, blue } = primaries as Record<string, number[]>;
  for (const [, y] of [red!, green!, blue!, space.white as number[]])
    if (y === 0) refuseProfile('colourSpace', 'a chromaticity with y = 0', 'one that has luminance');
}

function checkLattice(lattice: Fields): void {
  // node 0 lies on one edge of the frame and the last on the other: there are two at least
  checkCount(lattice.columns, 'lattice.columns', 2);
  checkCount(lattice.rows, 'lattice.rows', 2);
  const nodes = (lattice.columns as number) * (lattice.rows as number);
  for (const channel of ['red', 'green', 'blue']) {
    const gains: unknown = lattice[channel];
    checkNumberList(gains, `lattice.${channel}`, nodes);
    const beyond = (gains as number[]).find((gain) => Math.abs(gain) > MOST_STOPS);
    if (beyond !== undefined) refuseProfile(`lattice.${channel}`, beyond, `at most ${MOST_STOPS} stops`);
  }
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
