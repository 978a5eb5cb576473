import { expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { parseProfile } from '../../../src/engine/profile/parse-profile.ts';
import type { Profile } from '../../../src/engine/profile/profile.ts';
import { reportOfLight } from './report-of-light.ts';

const PROFILE = makeProfile(
  reportOfLight((x, y) => [-1 - x, -1 - x * y, -1.5 + 0.2 * y], { columns: 12, rows: 8 }),
);

function refusal(source: unknown): EngineError {
  try {
    parseProfile(source);
  } catch (error) {
    if (error instanceof EngineError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

/** The profile with the field at a path set to a value. */
function changed(path: string, value: unknown): unknown {
  const copy = JSON.parse(JSON.stringify(PROFILE));
  const names = path.split('.');
  const last = names.pop()!;
  const holder = names.reduce((fields, name) => fields[name], copy);
  holder[last] = value;
  return copy;
}

test('parseProfile(JSON.stringify(p)) gives p back, to the last digit', () => {
  expect(parseProfile(JSON.stringify(PROFILE))).toEqual(PROFILE);
  expect(parseProfile(JSON.parse(JSON.stringify(PROFILE)))).toEqual(PROFILE);
});

test('parseProfile takes a profile in a camera’s own colours, and one with an exposure', () => {
  const native = changed('colourSpace', { name: 'camera-native', camera: 'a camera' }) as Profile;
  expect(parseProfile(native).colourSpace).toEqual({ name: 'camera-native', camera: 'a camera' });
  const exposure = {
    seconds: 0.008,
    fNumber: 8,
    iso: 100,
    focalLengthMm: null,
    takenAt: '2026-03-01T10:20:30',
  };
  expect(parseProfile(changed('madeFrom.exposure', exposure)).madeFrom.exposure).toEqual(exposure);
});

const REFUSED: [path: string, value: unknown, says: RegExp][] = [
  ['schema', 'evenfield.profile/2', /schema is evenfield\.profile\/2; expected evenfield\.profile\/1/],
  ['schema', undefined, /schema is missing/],
  ['lattice.columns', 3, /lattice\.red is a list of \d+; expected \d+ numbers/],
  ['lattice.rows', 7.5, /lattice\.rows is 7\.5; expected a whole number/],
  ['lattice.rows', 1, /lattice\.rows is 1; expected at least 2/],
  ['lattice.green', [1, 2, 3], /lattice\.green is a list of 3/],
  ['lattice.blue', 'none', /lattice\.blue is none; expected a list/],
  ['lattice.blue.17', null, /lattice\.blue\[17\] is null; expected a finite number/],
  ['lattice.red.0', '1', /lattice\.red\[0\] is 1; expected a finite number/],
  ['lattice.red.3', Number.POSITIVE_INFINITY, /lattice\.red\[3\] is Infinity/],
  ['neutral.green', Number.NaN, /neutral\.green is no number/],
  ['neutral.red', 0, /neutral\.red is 0; expected above 0/],
  ['reference', 'lightest', /reference is lightest; expected one of brightest, mean, darkest/],
  ['light', 'guessed', /light is guessed/],
  ['madeFrom', null, /madeFrom is null; expected an object/],
  ['madeFrom.widthPx', -5, /madeFrom\.widthPx is -5/],
  ['madeFrom.region.left', null, /madeFrom\.region\.left is null/],
  ['colourSpace.primaries.red', [0.64], /colourSpace\.primaries\.red is a list of 1; expected 2 numbers/],
  ['colourSpace.white.1', null, /colourSpace\.white\[1\] is null/],
  ['colourSpace.name', 7, /colourSpace\.name is 7; expected a text/],
  ['model.terms', null, /model\.terms is null/],
  ['model.residualSpreadEv', Number.NEGATIVE_INFINITY, /model\.residualSpreadEv is -Infinity/],
  ['gradient.ev', null, /gradient\.ev is null/],
  ['gradient.angleDeg', 'up', /gradient\.angleDeg is up/],
  ['gradient.to.x', null, /gradient\.to\.x is null/],
  ['tintGradient.deltaUv', null, /tintGradient\.deltaUv is null/],
];
for (const [path, value, says] of REFUSED) {
  test(`parseProfile refuses ${path} = ${JSON.stringify(value) ?? String(value)}, and says so`, () => {
    const error = refusal(changed(path, value));
    expect(error.code).toBe('wrong-profile');
    expect(error.message).toMatch(says);
  });
}

test('parseProfile refuses what is no JSON, no object or over a megabyte', () => {
  expect(refusal('{"schema":').message).toMatch(/the file is no JSON/);
  expect(refusal('').message).toMatch(/the file is no JSON/);
  for (const source of ['[]', 'null', '7', 7, undefined, null]) {
    expect(refusal(source).message).toMatch(/the profile is .*; expected an object/);
  }
  const long = JSON.stringify({ ...PROFILE, padding: ' '.repeat(1_000_001) });
  expect(refusal(long).message).toMatch(/the file is \d+ characters long; expected at most 1000000/);
});

test('a number that JSON cannot hold does not come back as a profile', () => {
  const lattice = {
    ...PROFILE.lattice,
    red: PROFILE.lattice.red.map((gain, at) => (at === 5 ? Number.NaN : gain)),
  };
  expect(refusal(JSON.stringify({ ...PROFILE, lattice })).message).toMatch(/lattice\.red\[5\] is null/);
});

test('parseProfile refuses regions that are no part of the frame, colours without luminance and gains beyond all light', () => {
  const { region } = PROFILE.madeFrom;
  for (const wrong of [
    { ...region, left: 0.6, right: 0.4 },
    { ...region, top: 0.5, bottom: 0.5 },
    { ...region, right: 1.2 },
    { ...region, left: -0.1 },
  ])
    expect(refusal(changed('madeFrom.region', wrong)).message).toContain('a part of the frame, 0 to 1');
  expect(refusal(changed('colourSpace.white', [0.3, 0])).message).toContain('y = 0');
  expect(refusal(changed('madeFrom.orientation', 9)).message).toContain('madeFrom.orientation is 9');
  const gains = [...PROFILE.lattice.green];
  gains[5] = 2000;
  expect(refusal(changed('lattice.green', gains)).message).toContain('at most 24 stops');
});
