import { expect, test } from 'vitest';
import { srgbDecode, srgbEncode } from '../../../src/engine/colour/srgb-curve.ts';
import { expectWithin } from '../../expect-within.ts';

test('srgbEncode(0.18) is the published 0.4613561', () => {
  // Source: worked example in the documentation of a general colour-science library (github.com/colour-science/colour).
  expectWithin(srgbEncode(0.18), 0.4613561, 0.5e-7);
});

test.each([
  // Codes and linear light recomputed from IEC 61966-2-1, as printed to the digits here.
  [32, 0.01444, 0.5e-5],
  [64, 0.05127, 0.5e-5],
  [100, 0.12744, 0.5e-5],
  [118, 0.18116, 0.5e-5],
  [128, 0.215861, 0.5e-6],
  [160, 0.35153, 0.5e-5],
  [200, 0.57758, 0.5e-5],
  [220, 0.71569, 0.5e-5],
  [240, 0.87137, 0.5e-5],
  [250, 0.95597, 0.5e-5],
  [254, 0.9911, 0.5e-5],
])('srgbDecode(code %i / 255) is %f', (code, light, tolerance) => {
  expectWithin(srgbDecode(code / 255), light, tolerance);
});

test('srgbEncode(srgbDecode(code)) returns every 8-bit and every 16-bit code', () => {
  let largest = 0;
  for (const top of [255, 65535])
    for (let code = 0; code <= top; code++)
      largest = Math.max(largest, Math.abs(srgbEncode(srgbDecode(code / top)) - code / top));
  console.log(`measured: sRGB round trip within ${largest.toExponential(1)}`);
  expect(largest).toBeLessThan(1e-7);
});

test('srgbDecode(value) rises everywhere, also across its joint', () => {
  let smallestRise = Number.POSITIVE_INFINITY;
  for (let i = 1; i <= 100_000; i++)
    smallestRise = Math.min(smallestRise, srgbDecode(i / 100_000) - srgbDecode((i - 1) / 100_000));
  expect(smallestRise).toBeGreaterThan(0);
  expectWithin(srgbDecode(0.04045 + 1e-12), srgbDecode(0.04045), 1e-7);
});

test('srgbDecode(NaN) and srgbEncode(NaN) are NaN', () => {
  expect(srgbDecode(Number.NaN)).toBeNaN();
  expect(srgbEncode(Number.NaN)).toBeNaN();
});
