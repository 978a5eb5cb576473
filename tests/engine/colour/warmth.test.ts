import { expect, test } from 'vitest';
import { uv1960ToUvPrime, uvPrimeToUv1960, xyToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { daylightXy } from '../../../src/engine/colour/daylight-locus.ts';
import { warmthFromD65 } from '../../../src/engine/colour/warmth.ts';
import { D65 } from '../../../src/engine/colour/white-points.ts';
import { expectWithin } from '../../expect-within.ts';
import { ILLUMINANT_A } from './illuminants.ts';

const neutral = xyToUvPrime(D65);

test('warmthFromD65(D65) is exactly 0, 0', () => {
  expect(warmthFromD65(neutral.uPrime, neutral.vPrime)).toEqual({ mired: 0, duv: 0 });
});

test('warmthFromD65 is positive in mired for warmer light', () => {
  const tungsten = xyToUvPrime(ILLUMINANT_A);
  // Colour temperatures of A and D65 as published with the illuminants: 2855.5 K and 6504.3 K.
  const warmth = warmthFromD65(tungsten.uPrime, tungsten.vPrime)!;
  expectWithin(warmth.mired, 1e6 / 2855.5 - 1e6 / 6504.3, 0.02);
  expectWithin(warmth.duv, -0.00321, 2e-5);
  const shade = xyToUvPrime(daylightXy(9000));
  expect(warmthFromD65(shade.uPrime, shade.vPrime)!.mired).toBeLessThan(-30);
});

test('warmthFromD65 is positive in Duv for greener light', () => {
  const { u, v } = uvPrimeToUv1960(neutral);
  const greener = uv1960ToUvPrime({ u: u - 0.003, v: v + 0.003 });
  const pinker = uv1960ToUvPrime({ u: u + 0.003, v: v - 0.003 });
  expect(warmthFromD65(greener.uPrime, greener.vPrime)!.duv).toBeGreaterThan(0.003);
  expect(warmthFromD65(pinker.uPrime, pinker.vPrime)!.duv).toBeLessThan(-0.003);
});

test('warmthFromD65 is null far from the locus and for NaN', () => {
  const green = xyToUvPrime([0.3, 0.6]);
  expect(warmthFromD65(green.uPrime, green.vPrime)).toBeNull();
  expect(warmthFromD65(Number.NaN, Number.NaN)).toBeNull();
});
