import Color from 'colorjs.io';
import { uv } from 'colorjs.io/fn';
import { expect, test } from 'vitest';
import { bradfordMatrix } from '../../../src/engine/colour/bradford.ts';
import { xyToXyz, xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { ciede2000 } from '../../../src/engine/colour/ciede2000.ts';
import { type Lab, xyzToLab } from '../../../src/engine/colour/lab.ts';
import type { LinearRgbSpace } from '../../../src/engine/colour/linear-rgb-space.ts';
import { rgbToXyzMatrix } from '../../../src/engine/colour/rgb-to-xyz-matrix.ts';
import { srgbDecode, srgbEncode } from '../../../src/engine/colour/srgb-curve.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { D50, D65 } from '../../../src/engine/colour/white-points.ts';
import { transformVector3, type Vector3 } from '../../../src/engine/numeric/matrix3.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { DISPLAY_P3, OP_RGB, REC_2020, ROMM_RGB } from './rgb-spaces.ts';

// The referee is a general-purpose colour library. It holds the same whites, as quotients of the same x, y.

const COLOURS = 3000;
const random = seededRandom(1931);
const rgb = (): Vector3 => [random.uniform(), random.uniform(), random.uniform()];
const labColour = (): Lab => ({
  lightness: 100 * random.uniform(),
  a: 160 * random.uniform() - 80,
  b: 160 * random.uniform() - 80,
});
const byReferee = (from: string, coords: Vector3, to: string): Vector3 => {
  const [a, b, c] = new Color(from, [...coords]).to(to).coords;
  return [a!, b!, c!];
};
const distance = (a: Vector3, b: Vector3) => Math.max(...a.map((value, i) => Math.abs(value - b[i]!)));

/** The largest of a few thousand differences; NaN stays NaN and so fails its check. */
function largestOf(what: string, difference: () => number): number {
  let largest = 0;
  for (let i = 0; i < COLOURS; i++) {
    largest = Math.max(largest, difference());
  }
  console.log(
    `measured: ${what} against the referee, ${COLOURS} colours: at most ${largest.toExponential(1)}`,
  );
  return largest;
}

test('srgbDecode and srgbEncode agree with the referee', () => {
  const decode = largestOf('sRGB to linear light', () => {
    const value = rgb();
    const light = value.map(srgbDecode);
    return distance([light[0]!, light[1]!, light[2]!], byReferee('srgb', value, 'srgb-linear'));
  });
  const encode = largestOf('linear light to sRGB', () => {
    const light = rgb();
    const value = light.map(srgbEncode);
    return distance([value[0]!, value[1]!, value[2]!], byReferee('srgb-linear', light, 'srgb'));
  });
  expect(decode).toBeLessThan(1e-12);
  expect(encode).toBeLessThan(1e-12);
});

test.each([
  { space: SRGB, referee: 'srgb-linear', xyz: 'xyz-d65', allowed: 1e-12 },
  { space: DISPLAY_P3, referee: 'p3-linear', xyz: 'xyz-d65', allowed: 1e-12 },
  { space: OP_RGB, referee: 'a98rgb-linear', xyz: 'xyz-d65', allowed: 1e-12 },
  { space: REC_2020, referee: 'rec2020-linear', xyz: 'xyz-d65', allowed: 1e-12 },
  // The referee takes six-digit primaries (0.734699, 0.265301 …), not the four of ISO 22028-2: that is all that is left.
  { space: ROMM_RGB, referee: 'prophoto-linear', xyz: 'xyz-d50', allowed: 1e-5 },
  {
    space: {
      ...ROMM_RGB,
      name: 'ROMM RGB of six digits',
      primaries: { red: [0.734699, 0.265301], green: [0.159597, 0.840403], blue: [0.036598, 0.000105] },
    } satisfies LinearRgbSpace,
    referee: 'prophoto-linear',
    xyz: 'xyz-d50',
    allowed: 1e-12,
  },
])('rgbToXyzMatrix($space.name) agrees with the referee', ({ space, referee, xyz, allowed }) => {
  const matrix = rgbToXyzMatrix(space.primaries, space.white);
  const largest = largestOf(`${space.name} to XYZ`, () => {
    const light = rgb();
    return distance(transformVector3(matrix, light), byReferee(referee, light, xyz));
  });
  expect(largest).toBeLessThan(allowed);
});

test('bradfordMatrix agrees with the referee', () => {
  for (const [from, to, fromWhite, toWhite] of [
    ['xyz-d65', 'xyz-d50', D65, D50],
    ['xyz-d50', 'xyz-d65', D50, D65],
  ] as const) {
    const matrix = bradfordMatrix(fromWhite, toWhite);
    const largest = largestOf(`Bradford ${from} to ${to}`, () => {
      const colour = rgb();
      return distance(transformVector3(matrix, colour), byReferee(from, colour, to));
    });
    expect(largest).toBeLessThan(1e-12);
  }
});

test('xyzToLab agrees with the referee', () => {
  const white = xyToXyz(D65);
  const largest = largestOf('L*a*b* against D65', () => {
    const colour = rgb();
    const { lightness, a, b } = xyzToLab(colour, white);
    return distance([lightness, a, b], byReferee('xyz-d65', colour, 'lab-d65'));
  });
  expect(largest).toBeLessThan(1e-9);
});

test('xyzToUvPrime agrees with the referee', () => {
  const largest = largestOf('u′v′', () => {
    const colour = rgb();
    const { uPrime, vPrime } = xyzToUvPrime(...colour);
    const [u, v] = uv(new Color('xyz-d65', [...colour]));
    return Math.max(Math.abs(uPrime - u), Math.abs(vPrime - v));
  });
  expect(largest).toBeLessThan(1e-12);
});

test('ciede2000 agrees with the referee', () => {
  const asReferee = ({ lightness, a, b }: Lab) => new Color('lab', [lightness, a, b]);
  const far = largestOf('CIEDE2000, any two colours', () => {
    const first = labColour();
    const second = labColour();
    return Math.abs(ciede2000(first, second) - asReferee(first).deltaE(asReferee(second), '2000'));
  });
  const near = largestOf('CIEDE2000, near greys', () => {
    const grey = () => ({ lightness: 90, a: 8 * random.uniform() - 4, b: 8 * random.uniform() - 4 });
    const first = grey();
    const second = grey();
    return Math.abs(ciede2000(first, second) - asReferee(first).deltaE(asReferee(second), '2000'));
  });
  expect(far).toBeLessThan(1e-9);
  expect(near).toBeLessThan(1e-9);
});
