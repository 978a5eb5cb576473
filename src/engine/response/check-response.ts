import { EngineError } from '../engine-error.ts';
import { type CameraResponse, RESPONSE_CODES } from './camera-response.ts';

const SCHEMA = 'evenfield.response/1';
/** White is where light is 1. */
const WHITE_STOPS = 1e-3;
/** No bracket goes over more, no ± is wider, and no code stands for light so far below white. */
const MOST_STOPS = 64;
/** How far a curve may fall by having been rounded on its way. */
const ROUNDING_STOPS = 1e-6;

/**
 * Checks a response, from wherever it comes, field by field.
 *
 * @throws {@link EngineError} `wrong-profile`, naming the field.
 */
export function checkResponse(value: unknown): CameraResponse {
  const response = fieldsOf(value, 'the response');
  if (response.schema !== SCHEMA) refuse('schema', response.schema, SCHEMA);
  if (response.camera !== null && typeof response.camera !== 'string')
    refuse('camera', response.camera, 'a name or null');
  const channels = fieldsOf(response.channels, 'channels');
  for (const name of ['red', 'green', 'blue']) checkCurve(channels[name], `channels.${name}`);
  checkStops(response.plusMinusEv, 'plusMinusEv');
  checkStops(response.fromStops, 'fromStops');
  const madeFrom = fieldsOf(response.madeFrom, 'madeFrom');
  if (!Array.isArray(madeFrom.frames)) refuse('madeFrom.frames', madeFrom.frames, 'a list');
  if (madeFrom.codes !== null) {
    const codes = fieldsOf(madeFrom.codes, 'madeFrom.codes');
    for (const name of ['red', 'green', 'blue']) checkCodes(codes[name], `madeFrom.codes.${name}`);
  }
  return value as CameraResponse;
}

function checkCurve(curve: unknown, field: string): void {
  if (!Array.isArray(curve)) refuse(field, curve, `a list of ${RESPONSE_CODES} numbers`);
  if (curve.length !== RESPONSE_CODES)
    refuse(field, `a list of ${curve.length}`, `${RESPONSE_CODES} numbers, one for each code`);
  for (let code = 0; code < RESPONSE_CODES; code++) {
    const stops: unknown = curve[code];
    if (typeof stops !== 'number' || !Number.isFinite(stops))
      refuse(`${field}[${code}]`, stops, 'a finite number');
    if (stops < -MOST_STOPS) refuse(`${field}[${code}]`, stops, `at least −${MOST_STOPS}`);
    if (code > 0 && stops < curve[code - 1] - ROUNDING_STOPS)
      refuse(`${field}[${code}]`, stops, `at least ${curve[code - 1]}, the light of the code below`);
  }
  const white = curve[RESPONSE_CODES - 1];
  if (Math.abs(white) > WHITE_STOPS) refuse(`${field}[255]`, white, '0, the light of the white code');
  if (!(curve[1] < white)) refuse(field, 'the same light at every code', 'light that rises with the code');
}

function checkCodes(range: unknown, field: string): void {
  const isCode = (code: unknown) =>
    Number.isInteger(code) && Number(code) >= 0 && Number(code) < RESPONSE_CODES;
  const isRange = Array.isArray(range) && range.length === 2 && range.every(isCode) && range[0] < range[1];
  if (!isRange) refuse(field, range, 'the lowest and the highest code that was seen');
}

function checkStops(value: unknown, field: string): void {
  if (typeof value !== 'number' || !(value >= 0 && value <= MOST_STOPS))
    refuse(field, value, `a finite number from 0 to ${MOST_STOPS}`);
}

function fieldsOf(value: unknown, field: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) refuse(field, value, 'an object');
  return value as Readonly<Record<string, unknown>>;
}

function refuse(field: string, found: unknown, needed: string): never {
  throw new EngineError(
    'wrong-profile',
    `This is not a camera’s response that can be used: ${field} is ${shown(found)}; expected ${needed}. Recover it again from a bracket of frames.`,
    { field, needed },
  );
}

function shown(found: unknown): string {
  if (found === undefined) return 'missing';
  if (Number.isNaN(found)) return 'no number';
  return typeof found === 'object' && found !== null ? 'an object' : String(found).slice(0, 80);
}
