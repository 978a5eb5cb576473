import { expect, test } from 'vitest';
import { bradfordMatrix } from '../../../src/engine/colour/bradford.ts';
import { xyToXyz, xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { type Lab, xyzToLab } from '../../../src/engine/colour/lab.ts';
import { rgbToXyzMatrix } from '../../../src/engine/colour/rgb-to-xyz-matrix.ts';
import { srgbDecode } from '../../../src/engine/colour/srgb-curve.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { D65 } from '../../../src/engine/colour/white-points.ts';
import {
  invertMatrix3,
  type Matrix3,
  transformVector3,
  type Vector3,
} from '../../../src/engine/numeric/matrix3.ts';
import { expectWithin } from '../../expect-within.ts';
import { RGB_SPACES } from './rgb-spaces.ts';

// Source: IEC 61966-2-1:1999, the four digits that it prints.
const PRINTED_SRGB: Matrix3 = [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505];

test('rgbToXyzMatrix(sRGB) gives the printed matrix', () => {
  const matrix = rgbToXyzMatrix(SRGB.primaries, SRGB.white);
  matrix.forEach((value, i) => {
    expectWithin(value, PRINTED_SRGB[i]!, 0.5e-4);
  });
});

test('invertMatrix3 of the printed matrix is the printed inverse', () => {
  // Source: IEC 61966-2-1:1999.
  const printed = [3.2406, -1.5372, -0.4986, -0.9689, 1.8758, 0.0415, 0.0557, -0.204, 1.057];
  invertMatrix3(PRINTED_SRGB).forEach((value, i) => {
    expectWithin(value, printed[i]!, 0.5e-4);
  });
});

test('the row sums of the printed matrix are the white of the table below', () => {
  const [x, y, z] = transformVector3(PRINTED_SRGB, [1, 1, 1]);
  expectWithin(x, 0.9505, 1e-12);
  expectWithin(y, 1, 1e-12);
  expectWithin(z, 1.089, 1e-12);
  const { uPrime, vPrime } = xyzToUvPrime(x, y, z);
  expectWithin(uPrime, 0.197841, 0.5e-6);
  expectWithin(vPrime, 0.468323, 0.5e-6);
});

// Recomputed from IEC 61966-2-1; half a unit in the last digit.
test.each([
  { channel: 'red', deltaUv: 0.00349 },
  { channel: 'green', deltaUv: 0.00488 },
  { channel: 'blue', deltaUv: 0.00471 },
])('a tenth of a stop in $channel alone moves a neutral by $deltaUv in u′v′', ({ channel, deltaUv }) => {
  const gain = (name: string) => (name === channel ? 2 ** 0.1 : 1);
  const matrix = rgbToXyzMatrix(SRGB.primaries, SRGB.white);
  const cast = xyzToUvPrime(...transformVector3(matrix, [gain('red'), gain('green'), gain('blue')]));
  const white = xyzToUvPrime(...transformVector3(matrix, [1, 1, 1]));
  expectWithin(Math.hypot(cast.uPrime - white.uPrime, cast.vPrime - white.vPrime), deltaUv, 0.5e-5);
});

test.each(RGB_SPACES)(
  'rgbToXyzMatrix($name) takes 1, 1, 1 to the white and each primary to itself',
  (space) => {
    const matrix = rgbToXyzMatrix(space.primaries, space.white);
    const expected = xyToXyz(space.white);
    transformVector3(matrix, [1, 1, 1]).forEach((value, i) => {
      expectWithin(value, expected[i]!, 1e-12);
    });
    const units: readonly Vector3[] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    [space.primaries.red, space.primaries.green, space.primaries.blue].forEach(([x, y], i) => {
      const [X, Y, Z] = transformVector3(matrix, units[i]!);
      expectWithin(X / (X + Y + Z), x, 1e-12);
      expectWithin(Y / (X + Y + Z), y, 1e-12);
    });
  },
);

test('rgbToXyzMatrix(primaries on one line) throws', () => {
  const flat = { red: [0.1, 0.1], green: [0.2, 0.2], blue: [0.3, 0.3] } as const;
  expect(() => rgbToXyzMatrix(flat, D65)).toThrow(RangeError);
});

// Recomputed from the formulas of IEC 61966-2-1 and the CIE with the printed matrix and its row sums as white;
// half a unit in the last digit.
test.each([
  { rgb: [128, 128, 128], lab: [53.585, 0, 0], uv: [0.197841, 0.468323] },
  { rgb: [250, 250, 250], lab: [98.272, 0, 0], uv: [0.197841, 0.468323] },
  { rgb: [255, 250, 245], lab: [98.5211, 0.8017, 2.9795], uv: [0.200276, 0.471786] },
  { rgb: [245, 250, 255], lab: [98.035, -0.7436, -2.9631], uv: [0.195463, 0.464801] },
  { rgb: [250, 255, 250], lab: [99.5131, -2.5211, 1.8093], uv: [0.195896, 0.470837] },
  { rgb: [255, 245, 255], lab: [97.5452, 5.0714, -3.5962], uv: [0.201815, 0.463184] },
  { rgb: [240, 235, 225], lab: [93.1798, -0.0333, 5.4403], uv: [0.200674, 0.475131] },
  { rgb: [255, 0, 0], lab: [53.2329, 80.1053, 67.2228], uv: null },
  { rgb: [0, 255, 0], lab: [87.737, -86.1884, 83.1861], uv: null },
  { rgb: [0, 0, 255], lab: [32.3026, 79.1936, -107.8537], uv: null },
])('xyzToLab and xyzToUvPrime of sRGB $rgb are $lab and $uv', ({ rgb, lab, uv }) => {
  const light = rgb.map((code) => srgbDecode(code / 255));
  const xyz = transformVector3(PRINTED_SRGB, [light[0]!, light[1]!, light[2]!]);
  const found: Lab = xyzToLab(xyz, transformVector3(PRINTED_SRGB, [1, 1, 1]));
  expectWithin(found.lightness, lab[0]!, 0.5e-4);
  expectWithin(found.a, lab[1]!, 0.5e-4);
  expectWithin(found.b, lab[2]!, 0.5e-4);
  if (uv === null) return;
  const { uPrime, vPrime } = xyzToUvPrime(...xyz);
  expectWithin(uPrime, uv[0]!, 0.5e-6);
  expectWithin(vPrime, uv[1]!, 0.5e-6);
});

test('one neutral of every space reads as D65 once adapted to it', () => {
  for (const { primaries, white } of RGB_SPACES) {
    const xyz = transformVector3(rgbToXyzMatrix(primaries, white), [0.4, 0.4, 0.4]);
    const adapted = transformVector3(bradfordMatrix(white, D65), xyz);
    xyToXyz(D65).forEach((value, i) => {
      expectWithin(adapted[i]!, 0.4 * value, 1e-12);
    });
  }
});
