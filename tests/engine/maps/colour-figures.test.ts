import Color from 'colorjs.io';
import { expect, test } from 'vitest';
import { ciede2000 } from '../../../src/engine/colour/ciede2000.ts';
import type { Lab } from '../../../src/engine/colour/lab.ts';
import { rgbToXyzMatrix } from '../../../src/engine/colour/rgb-to-xyz-matrix.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import type { CellChannels } from '../../../src/engine/grid/cell-grid.ts';
import { cast } from '../../../src/engine/maps/cast.ts';
import { colourOfCells, emptyColourMap } from '../../../src/engine/maps/colour-of-cells.ts';
import { tint } from '../../../src/engine/maps/tint.ts';
import { transformVector3 } from '../../../src/engine/numeric/matrix3.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { uvPrimeOfXyz, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import { castOf } from '../../synthetic/field-truth.ts';

const SRGB_MATRIX = rgbToXyzMatrix(SRGB.primaries, SRGB.white);
const NO_PLUS_MINUS = { deltaUv: 0, mired: 0, duv: 0 };

type Rgb = readonly [number, number, number];

function lights(count: number, seed: number): Rgb[] {
  const random = seededRandom(seed);
  const channel = () => 0.5 * 2 ** (0.6 * (random.uniform() - 0.5));
  return Array.from({ length: count }, () => [channel(), channel(), channel()] as const);
}

function mapOf(cells: readonly Rgb[]) {
  const channel = (index: 0 | 1 | 2) => Float64Array.from(cells, (rgb) => rgb[index]);
  const light: CellChannels = { red: channel(0), green: channel(1), blue: channel(2) };
  const map = emptyColourMap(cells.length);
  colourOfCells(light, SRGB_MATRIX, map);
  return map;
}

/** L*a*b* at L* 90 of a chromaticity, by the definition of u′v′ and a library's conversion. */
function lab90([u, v]: readonly [number, number]): Lab {
  const y = ((90 + 16) / 116) ** 3;
  const [x, z] = [(9 * u * y) / (4 * v), ((12 - 3 * u - 20 * v) * y) / (4 * v)];
  const [lightness, a, b] = new Color('xyz-d65', [x, y, z]).to('lab-d65').coords;
  return { lightness: lightness!, a: a!, b: b! };
}

test('colourOfCells gives luminance and u′v′ of linear light, and NaN where there is none', () => {
  const cells = lights(50, 1);
  const map = mapOf([...cells, [0, 0, 0], [Number.NaN, 0.5, 0.5], [-0.1, -0.2, 0]]);
  cells.forEach((rgb, i) => {
    const xyz = xyzOfSrgbLight(rgb);
    const [u, v] = uvPrimeOfXyz(xyz);
    expectWithin(map.luminance[i]!, xyz[1], 1e-6);
    expectWithin(map.uPrime[i]!, u, 1e-6);
    expectWithin(map.vPrime[i]!, v, 1e-6);
  });
  for (const i of [50, 51, 52])
    expect([map.luminance[i], map.uPrime[i], map.vPrime[i]]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
});

test('cast tells a colour’s distance from white, its warmth and its green, as the Planckian locus itself has them', () => {
  let worst = { uv: 0, mired: 0, duv: 0 };
  for (const rgb of lights(40, 2)) {
    const xyz = transformVector3(SRGB_MATRIX, rgb);
    const read = cast(xyz, SRGB_MATRIX, NO_PLUS_MINUS);
    const truth = castOf(xyz);
    worst = {
      uv: Math.max(worst.uv, Math.abs(read.deltaUv - truth.deltaUv)),
      mired: Math.max(worst.mired, Math.abs(read.mired! - truth.mired)),
      duv: Math.max(worst.duv, Math.abs(read.duv! - truth.duv)),
    };
    expectWithin(Math.hypot(read.deltaUPrime, read.deltaVPrime), read.deltaUv, 1e-15);
    const white = lab90(uvPrimeOfXyz(xyzOfSrgbLight([1, 1, 1])));
    const lab = lab90(uvPrimeOfXyz(xyz));
    expectWithin(read.labA, lab.a, 0.02); // the library's D65 has other decimals
    expectWithin(read.labB, lab.b, 0.02);
    expectWithin(read.deltaE00, ciede2000(lab, white), 0.02);
  }
  console.log(
    `measured: casts differ by at most ${worst.uv.toExponential(1)} u′v′, ${worst.mired.toFixed(3)} mired, ${worst.duv.toExponential(1)} Duv`,
  );
  expect(worst.uv).toBeLessThan(1e-6);
  expect(worst.mired).toBeLessThan(0.1);
  expect(worst.duv).toBeLessThan(0.00005);
});

test('cast reads 0 for the white of the file, warmer for red, greener for green', () => {
  const of = (rgb: Rgb) => cast(transformVector3(SRGB_MATRIX, rgb), SRGB_MATRIX, NO_PLUS_MINUS);
  const white = of([0.3, 0.3, 0.3]);
  for (const figure of [white.deltaUv, white.deltaE00, white.mired!, white.duv!, white.labA, white.labB])
    expectWithin(figure, 0, 1e-9);
  expect(of([0.6, 0.5, 0.4]).mired).toBeGreaterThan(10);
  expect(of([0.4, 0.5, 0.6]).mired).toBeLessThan(-10);
  expect(of([0.5, 0.6, 0.5]).duv).toBeGreaterThan(0.002);
  expect(of([0.5, 0.4, 0.5]).duv).toBeLessThan(-0.002);
});

test('cast says null, never NaN, for colours that have no colour temperature', () => {
  const blue = cast(transformVector3(SRGB_MATRIX, [0.001, 0.001, 0.9]), SRGB_MATRIX, {
    deltaUv: 0.001,
    mired: Number.NaN,
    duv: Number.NaN,
  });
  expect([blue.mired, blue.duv, blue.plusMinusMired, blue.plusMinusDuv]).toEqual([null, null, null, null]);
  expect(blue.deltaUv).toBeGreaterThan(0.1);
});

test('tint finds the largest colour difference from the mean, and maps u′v′ with null at gaps', () => {
  const cells = lights(30, 5);
  const map = mapOf([...cells, [Number.NaN, 1, 1]]);
  const mean: Rgb = [0.5, 0.49, 0.47];
  const [uPrime, vPrime] = uvPrimeOfXyz(xyzOfSrgbLight(mean));
  const read = tint(map, { uPrime, vPrime }, 0.012, 0.001);
  const largest = Math.max(
    ...cells.map((rgb) => ciede2000(lab90(uvPrimeOfXyz(xyzOfSrgbLight(rgb))), lab90([uPrime, vPrime]))),
  );
  expectWithin(read.deltaE00Max, largest, 0.02);
  expect([read.uPrimeMap[30], read.vPrimeMap[30]]).toEqual([null, null]);
  expectWithin(read.uPrimeMap[3]!, uvPrimeOfXyz(xyzOfSrgbLight(cells[3]!))[0], 1e-6);
  expect([read.spreadDeltaUv, read.plusMinusDeltaUv]).toEqual([0.012, 0.001]);
});
