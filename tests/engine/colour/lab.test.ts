import { expect, test } from 'vitest';
import { xyToUvPrime, xyToXyz, xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { chromaticityToLab90, xyzToLab } from '../../../src/engine/colour/lab.ts';
import { D65 } from '../../../src/engine/colour/white-points.ts';
import type { Vector3 } from '../../../src/engine/numeric/matrix3.ts';
import { expectWithin } from '../../expect-within.ts';

const white = xyToXyz(D65);

// Recomputed from CIE e-ILV 17-23-076; each half a unit in the last printed digit.
test.each([
  [0.18, 49.4961, 0.5e-4],
  [0.184187, 50.0, 0.5e-3],
  [0.5, 76.0693, 0.5e-4],
  [0.75, 89.393, 0.5e-4],
  [0.9, 95.9968, 0.5e-4],
  [0.01, 8.9914, 0.5e-4],
  [0.001, 0.9033, 0.5e-4],
])('xyzToLab of a grey of Y = %f has L* %f', (y, lightness, tolerance) => {
  const lab = xyzToLab([y * white[0], y, y * white[2]], white);
  expectWithin(lab.lightness, lightness, tolerance);
  expectWithin(lab.a, 0, 1e-12);
  expectWithin(lab.b, 0, 1e-12);
});

test('xyzToLab joins its straight foot at Y = 216/24389 without a step', () => {
  const joint = 216 / 24389;
  const below = xyzToLab([joint * (1 - 1e-9), joint * (1 - 1e-9), joint], [1, 1, 1]);
  const above = xyzToLab([joint * (1 + 1e-9), joint * (1 + 1e-9), joint], [1, 1, 1]);
  expectWithin(below.lightness, 8, 1e-7);
  expectWithin(above.lightness, below.lightness, 1e-7);
});

test('chromaticityToLab90(D65) is L* 90 with a* = b* = 0', () => {
  const { uPrime, vPrime } = xyToUvPrime(D65);
  const lab = chromaticityToLab90(uPrime, vPrime);
  expectWithin(lab.lightness, 90, 1e-12);
  expectWithin(lab.a, 0, 1e-10);
  expectWithin(lab.b, 0, 1e-10);
});

test('chromaticityToLab90(u′, v′) is the Lab of any light of that colour scaled to L* 90', () => {
  const y = (106 / 116) ** 3;
  const lights: readonly Vector3[] = [
    [0.9, 1, 1.1],
    [0.3, 0.29, 0.2],
    [2, 2.1, 3],
  ];
  for (const xyz of lights) {
    const { uPrime, vPrime } = xyzToUvPrime(...xyz);
    const scale = y / xyz[1];
    const expected = xyzToLab([xyz[0] * scale, y, xyz[2] * scale], white);
    const lab = chromaticityToLab90(uPrime, vPrime);
    expectWithin(lab.a, expected.a, 1e-9);
    expectWithin(lab.b, expected.b, 1e-9);
  }
});

test('chromaticityToLab90(NaN, NaN) is NaN', () => {
  const lab = chromaticityToLab90(Number.NaN, Number.NaN);
  expect(lab.a).toBeNaN();
  expect(lab.b).toBeNaN();
});
