import { expect, test } from 'vitest';
import { readIccProfile } from '../../../src/engine/intake/read-icc-profile.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { sharedPhoto, sharedPhotoNames, sharedPhotosPresent } from '../../shared-photos.ts';
import { curveElement, fixedElement, iccBytes, nameElement, SRGB_COLORANTS } from './icc-bytes.ts';

const GAMMA = curveElement([2.2 * 256]);
const CURVES = { rTRC: GAMMA, gTRC: GAMMA, bTRC: GAMMA };
const MATRIX = { desc: nameElement('A wall’s own'), ...SRGB_COLORANTS, ...CURVES };

test('readIccProfile(bytes) reads a matrix profile: name, colorants, curves', () => {
  const profile = readIccProfile(iccBytes(MATRIX));
  if (profile.kind !== 'matrix') throw new Error(`read as ${profile.kind}`);
  expect(profile.description).toBe('A wall’s own');
  expectWithin(profile.colorants[4], 0.71687, 1 / 65536);
  expect([profile.adaptation, profile.mediaWhite, profile.majorVersion]).toEqual([null, null, 4]);
});

test('readIccProfile(bytes) prefers the matrix of a profile that holds tables too', () => {
  expect(readIccProfile(iccBytes({ ...MATRIX, A2B0: new Uint8Array(40) })).kind).toBe('matrix');
});

test('readIccProfile(bytes) says where a profile holds tables only, and reads a grey one', () => {
  const tables = readIccProfile(iccBytes({ desc: nameElement('Scanner'), A2B0: new Uint8Array(40) }));
  expect(tables).toEqual({ kind: 'table-only', description: 'Scanner', channels: 3 });
  expect(readIccProfile(iccBytes({ A2B1: new Uint8Array(40) }, { space: 'GRAY' }))).toMatchObject({
    kind: 'table-only',
    channels: 1,
  });
  const link = iccBytes({ A2B0: new Uint8Array(40) });
  link.set(Buffer.from('RGB ', 'latin1'), 20); // leads to another device, not to a colour
  expect(readIccProfile(link).kind).toBe('broken');
  expect(readIccProfile(iccBytes({ kTRC: GAMMA }, { space: 'GRAY' }))).toMatchObject({
    kind: 'grey',
    description: 'unnamed profile',
  });
});

test('readIccProfile(bytes) calls broken what can not be gone by, and says why', () => {
  const bad: readonly (readonly [RegExp, Uint8Array])[] = [
    [/can not be unpacked/, new Uint8Array(0)],
    [/100 bytes, 132 at least/, new Uint8Array(100)],
    [/signature/, new Uint8Array(500)],
    [/of \d+ bytes/, iccBytes(MATRIX).subarray(0, 300)],
    [/CMYK colour/, iccBytes(MATRIX, { space: 'CMYK' })],
    [/curves/, iccBytes({ ...MATRIX, gTRC: new Uint8Array(12) })],
    [/grey curve/, iccBytes({}, { space: 'GRAY' })],
    [/colour of its matrix/, iccBytes({ ...MATRIX, bXYZ: new Uint8Array(20) })],
    [/no white/, iccBytes({ ...MATRIX, bXYZ: SRGB_COLORANTS.gXYZ })],
    [/no white/, iccBytes({ ...MATRIX, gXYZ: fixedElement('XYZ ', [0.4, -0.1, 0.1]) })],
  ];
  for (const [why, bytes] of bad)
    expect(readIccProfile(bytes)).toEqual({ kind: 'broken', why: expect.stringMatching(why) });
});

test('readIccProfile(bytes) never throws, whatever is bent', () => {
  const { uniform } = seededRandom(11);
  const good = iccBytes({ ...MATRIX, chad: fixedElement('sf32', [1, 0, 0, 0, 1, 0, 0, 0, 1]) });
  const kinds = new Map<string, number>();
  for (let round = 0; round < 5000; round++) {
    const bent = good.slice(0, round % 4 === 0 ? Math.floor(uniform() * good.length) : good.length);
    for (let hit = 0; hit < 3; hit++) bent[Math.floor(uniform() * bent.length)] = uniform() * 256;
    const { kind } = readIccProfile(bent);
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  expect(kinds.get('broken')).toBeGreaterThan(500);
  expect(kinds.get('matrix')).toBeGreaterThan(500);
});

test.skipIf(!sharedPhotosPresent)('readIccProfile(bytes) reads every real profile, version 2 and 4', () => {
  for (const name of sharedPhotoNames('colour-profiles')) {
    const profile = readIccProfile(sharedPhoto(name));
    expect(profile.kind, name).toBe(name.includes('Grey') ? 'grey' : 'matrix');
  }
});
