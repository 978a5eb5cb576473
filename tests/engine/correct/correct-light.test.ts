import { expect, test } from 'vitest';
import type { OutCoding } from '../../../src/engine/correct/apply-gains.ts';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import { lightTable } from '../../../src/engine/frame/light-table.ts';
import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { gainsAt } from '../../../src/engine/profile/gain-lattice.ts';
import { expectWithin } from '../../expect-within.ts';
import { decodeSrgb, lightOfCode } from '../../synthetic/code-thresholds.ts';
import { srgbLightOfXyz, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { storedAs } from '../../synthetic/turn-frame.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { latticeOf, profileOf } from './profile-of.ts';

const SRGB_16 = lightTable(16, decodeSrgb);
const IN_16: OutCoding = outIn(16, SRGB_16);
const IN_8: OutCoding = outIn(8, lightTable(8, decodeSrgb));

function outIn(bitsPerSample: 8 | 16, table: Float64Array): OutCoding {
  return { channels: 3, bitsPerSample, lightAtCode: { red: table, green: table, blue: table } };
}

function rendered(field: KnownField, bits: 8 | 16, widthPx: number, heightPx: number) {
  return renderFrame(field, { widthPx, heightPx, bits, curve: 'srgb', electronsAtFull: null, seed: 1 });
}

const bent = latticeOf(13, 9, (x, y) => [0.8 * x - 0.5 * y * y, 0.6 * x * y - 0.2, 0.3 - 0.5 * x]);

for (let orientation = 1; orientation <= 8; orientation++) {
  test(`gains lie over the upright frame, stored by Exif orientation ${orientation}`, () => {
    const [widthPx, heightPx] = [61, 40];
    const upright = rendered(
      (x, y) => [0.1 + 0.2 * x, 0.3 - 0.1 * y, 0.2 + 0.1 * x * y],
      16,
      widthPx,
      heightPx,
    );
    const frame = frameOfCodes(storedAs(upright, orientation), { orientation });
    const { samples } = correctLight(frame, profileOf(bent), {}, IN_16);
    const wanted = upright.samples.map((code, at) => {
      const pixel = Math.floor(at / 3);
      const x = ((pixel % widthPx) + 0.5) / widthPx;
      const y = (Math.floor(pixel / widthPx) + 0.5) / heightPx;
      const light = lightOfCode(code, 16, 'srgb') * 2 ** gainsAt(bent, x, y)[(at % 3) as 0 | 1 | 2];
      return 65535 * (1.055 * light ** (1 / 2.4) - 0.055);
    });
    const stored = storedAs({ ...upright, samples: wanted }, orientation);
    let worst = 0;
    for (let at = 0; at < samples.length; at++)
      worst = Math.max(worst, Math.abs(samples[at]! - stored.samples[at]!));
    expect(worst).toBeLessThanOrEqual(1); // a dithered code is one of the two beside the light
  });
}

test('dithered output keeps the light: 8 bits on a ramp, 16 bits without steps', () => {
  const level = 0.4;
  const ramp: KnownField = () => [level, level, level];
  const frame = frameOfCodes(rendered(ramp, 16, 1024, 256));
  const slope = latticeOf(3, 2, (x) => [0.4 * x - 0.1, 0.4 * x - 0.1, 0.4 * x - 0.1]);
  const truth = (column: number) => {
    const light = lightOfCode(frame.samples[0]!, 16, 'srgb') * 2 ** (0.4 * ((column + 0.5) / 1024) - 0.1);
    return 1.055 * light ** (1 / 2.4) - 0.055;
  };
  for (const out of [IN_8, IN_16]) {
    const { samples } = correctLight(frame, profileOf(slope), {}, out);
    const top = 2 ** out.bitsPerSample - 1;
    let worst = 0;
    let mean = 0;
    for (let column = 0; column < 1024; column++) {
      let sum = 0;
      for (let row = 0; row < 256; row++)
        for (let channel = 0; channel < 3; channel++) sum += samples[(row * 1024 + column) * 3 + channel]!;
      const error = sum / 768 - truth(column) * top;
      mean += error / 1024;
      worst = Math.max(worst, Math.abs(error));
    }
    console.log(
      `measured: ${out.bitsPerSample} bits on a ramp: mean error ${mean.toFixed(5)} code, worst of 1024 columns ${worst.toFixed(3)} code`,
    );
    expect(Math.abs(mean)).toBeLessThan(0.01);
    expect(worst).toBeLessThan(0.1);
  }
});

test('a 16-bit ramp shows no steps: its columns rise as evenly as the light does', () => {
  const ramp: KnownField = (x) => [0.5 * 2 ** (-0.3 * x), 0.5 * 2 ** (-0.3 * x), 0.5 * 2 ** (-0.3 * x)];
  const frame = frameOfCodes(rendered(ramp, 16, 720, 64));
  const undone = latticeOf(31, 21, (x) => [0.3 * x - 0.15, 0.3 * x - 0.15, 0.3 * x - 0.15]);
  const { samples } = correctLight(frame, profileOf(undone), {}, IN_16);
  let lowest = Number.POSITIVE_INFINITY;
  let highest = 0;
  for (let at = 0; at < samples.length; at++) {
    lowest = Math.min(lowest, samples[at]!);
    highest = Math.max(highest, samples[at]!);
  }
  console.log(
    `measured: a ramp of 0.3 stops undone in 16 bits stands within ${highest - lowest} codes of 65535`,
  );
  expect(highest - lowest).toBeLessThanOrEqual(3); // half a code of the source times the gain, and the dither's one
});

test('alpha stays as it is, also in another depth', () => {
  const samples = Uint8Array.of(100, 110, 120, 7, 130, 140, 150, 255);
  const frame: LinearFrame = {
    ...frameOfCodes(rendered(() => [0.2, 0.2, 0.2], 8, 2, 1)),
    channels: 4,
    samples,
  };
  const lifted = profileOf(latticeOf(2, 2, () => [0.2, 0.2, 0.2]));
  const out = correctLight(frame, lifted, {}, { ...IN_16, channels: 4 });
  expect([out.samples[3], out.samples[7]]).toEqual([7 * 257, 255 * 257]);
  const bytes = correctLight(frame, lifted, {}, { ...IN_8, channels: 4 });
  expect([bytes.samples[3], bytes.samples[7]]).toEqual([7, 255]);
  // decoded to four channels, written as three
  expect(correctLight(frame, lifted, {}, IN_16).samples.length).toBe(6);
});

test('a grey frame gets the luminance of the gains, and no neutral ones', () => {
  const light = lightTable(16, decodeSrgb);
  const frame: LinearFrame = {
    ...frameOfCodes(rendered(() => [0.2, 0.2, 0.2], 16, 2, 1)),
    channels: 1,
    samples: Uint16Array.of(30000, 30000),
  };
  const profile = profileOf(
    latticeOf(2, 2, () => [1, -1, 0.5]),
    { neutral: { red: 2, green: 0.5, blue: 3 } },
  );
  const { samples } = correctLight(frame, profile, {}, { ...IN_16, channels: 1 });
  const gain = xyzOfSrgbLight([2, 0.5, 2 ** 0.5])[1];
  expectWithin(light[samples[0]!]! / light[30000]!, gain, 1e-3);
});

test('gains that hold in another linear RGB are applied there', () => {
  // a space whose primaries are sRGB's mixed, so that the way there and back is known from XYZ alone
  const primaries = { red: [0.7, 0.3], green: [0.2, 0.7], blue: [0.14, 0.05] } as const;
  const profile = profileOf(
    latticeOf(2, 2, () => [0.4, 0, -0.3]),
    { colourSpace: { name: 'wide', primaries, white: [0.3127, 0.329] } },
  );
  const frame = frameOfCodes(rendered(() => [0.3, 0.2, 0.25], 16, 4, 4));
  const { samples } = correctLight(frame, profile, {}, IN_16);
  const columns = [primaries.red, primaries.green, primaries.blue].map(
    ([x, y]) => [x / y, 1, (1 - x - y) / y] as const,
  );
  const white = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329] as const;
  const scale = solve(columns, white);
  const light = solve(columns, xyzOfSrgbLight([0.3, 0.2, 0.25])).map((v, i) => v / scale[i]!);
  const gained = light.map((v, i) => v * 2 ** [0.4, 0, -0.3][i]! * scale[i]!);
  const xyz = [0, 1, 2].map((row) => columns.reduce((sum, column, i) => sum + column[row]! * gained[i]!, 0));
  const wanted = srgbLightOfXyz(xyz as [number, number, number]);
  for (let i = 0; i < 3; i++) expectWithin(SRGB_16[samples[i]!]! / wanted[i]!, 1, 2e-4);
});

test('pixels that the file held clipped are counted apart from those that the gains push beyond white', () => {
  const frame = frameOfCodes(rendered((x) => [x < 0.25 ? 1.2 : x < 0.5 ? 0.9 : 0.3, 0.3, 0.3], 16, 8, 2));
  const { clippedBefore, clippedPixels } = correctLight(
    frame,
    profileOf(latticeOf(2, 2, () => [0.5, 0.5, 0.5])),
    {},
    IN_16,
  );
  expect([clippedBefore, clippedPixels]).toEqual([4, 4]);
});

/** Cramer's rule for three columns. */
function solve(
  [a, b, c]: readonly (readonly [number, number, number])[],
  d: readonly [number, number, number],
) {
  const det = (
    u: readonly [number, number, number],
    v: readonly [number, number, number],
    w: readonly [number, number, number],
  ) =>
    u[0] * (v[1] * w[2] - v[2] * w[1]) -
    v[0] * (u[1] * w[2] - u[2] * w[1]) +
    w[0] * (u[1] * v[2] - u[2] * v[1]);
  const whole = det(a!, b!, c!);
  return [det(d, b!, c!) / whole, det(a!, d, c!) / whole, det(a!, b!, d) / whole];
}
