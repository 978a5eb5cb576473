import Color from 'colorjs.io';
import { describe, expect, test } from 'vitest';
import { profileToWrite } from '../../../src/engine/export/profile-to-write.ts';
import { type ColourInterpretation, interpretColour } from '../../../src/engine/frame/interpret-colour.ts';
import type { StoredImage } from '../../../src/engine/intake/stored-image.ts';
import { transformVector3, type Vector3 } from '../../../src/engine/numeric/matrix3.ts';
import { storedPicture } from './stored-picture.ts';

const CODES: readonly Vector3[] = [
  [1, 1, 1],
  [0.9, 0.2, 0.1],
  [0.1, 0.7, 0.3],
  [0.2, 0.1, 0.8],
  [0.02, 0.03, 0.01],
];

function xyzOf({ decode, toXyz }: ColourInterpretation, [r, g, b]: Vector3): Vector3 {
  return transformVector3(toXyz, [decode.red(r), decode.green(g), decode.blue(b)]);
}

function worst(a: ColourInterpretation, xyzAt: (codes: Vector3) => readonly number[]): number {
  return Math.max(...CODES.flatMap((codes) => xyzOf(a, codes).map((v, i) => Math.abs(v - xyzAt(codes)[i]!))));
}

describe('interpretColour(stored) reads colours that are stated without a profile as a colour library does:', () => {
  test.each([
    ['the optional wide space of cameras', { exifColourSpace: 2 }, 'a98rgb'],
    ['P3 by number', { codePoints: { primaries: 12, transfer: 13 } }, 'p3'],
    ['linear BT.2020 by number', { codePoints: { primaries: 9, transfer: 8 } }, 'rec2020-linear'],
    ['sRGB by number', { codePoints: { primaries: 1, transfer: 13 } }, 'srgb'],
    ['unspecified primaries', { codePoints: { primaries: 2, transfer: 8 } }, 'srgb-linear'],
    ['an unspecified curve', { codePoints: { primaries: 12, transfer: 2 } }, 'p3'],
    ['numbers before Exif', { codePoints: { primaries: 12, transfer: 13 }, exifColourSpace: 1 }, 'p3'],
  ] as const)('%s', (_, parts, space) => {
    const read = interpretColour(storedPicture(parts as Partial<StoredImage>));
    const error = worst(read, (codes) => new Color(space, [...codes]).to('xyz-d65').coords.map(Number));
    console.log(`measured: ${read.name}: XYZ within ${error.toExponential(1)} of the library's ${space}`);
    expect(error).toBeLessThan(1e-9);
  });
});

test('interpretColour(stored) takes the video curve back as BT.709 states it, and exponents as they are', () => {
  const decode = (transfer: number) =>
    interpretColour(storedPicture({ codePoints: { primaries: 1, transfer } })).decode.green;
  // Source: Rec. ITU-R BT.709-6, item 1.2: V = 1.099 L^0.45 − 0.099, 4.5 L below 0.018
  for (const light of [0.005, 0.018, 0.1, 0.5, 1]) {
    const code = light < 0.018 ? 4.5 * light : 1.099 * light ** 0.45 - 0.099;
    for (const transfer of [1, 6, 14, 15])
      expect(Math.abs(decode(transfer)(code) - light)).toBeLessThan(1e-4);
  }
  expect(decode(4)(0.5)).toBe(0.5 ** 2.2);
  expect(decode(5)(0.5)).toBe(0.5 ** 2.8);
});

test('interpretColour(stored) of a picture’s own profile, as profileToWrite makes it, finds the same colours', () => {
  for (const parts of [
    { exifColourSpace: 2 },
    ...[1, 4, 8, 13].map((transfer) => ({ codePoints: { primaries: 9, transfer } })),
    { codePoints: { primaries: 11, transfer: 2 } },
  ]) {
    const stored = storedPicture(parts);
    const read = interpretColour(stored);
    for (const format of ['tiff', 'png', 'jpeg'] as const) {
      const iccProfile = profileToWrite(stored, read.space, { format, channels: 3 });
      const again = interpretColour(storedPicture({ iccProfile }));
      expect(worst(again, (codes) => xyzOf(read, codes))).toBeLessThan(2e-4);
    }
  }
});

test('interpretColour(stored) says what it went by', () => {
  const says = (parts: Partial<StoredImage>) => interpretColour(storedPicture(parts)).says;
  expect(says({ exifColourSpace: 2 })).toContain('optional wide colour space');
  expect(says({ exifColourSpace: 65535 })).toContain('calls its colours uncalibrated, so sRGB is assumed');
  expect(says({ codePoints: { primaries: 9, transfer: 1 } })).toContain(
    'BT.709’s curve, in the primaries of BT.2020',
  );
});
