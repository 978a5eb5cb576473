import { test } from 'vitest';
import { bradfordMatrix } from '../../../src/engine/colour/bradford.ts';
import { xyToXyz } from '../../../src/engine/colour/chromaticity.ts';
import { D50, D65 } from '../../../src/engine/colour/white-points.ts';
import { multiplyMatrix3, transformVector3 } from '../../../src/engine/numeric/matrix3.ts';
import { expectWithin } from '../../expect-within.ts';
import { ILLUMINANT_A } from './illuminants.ts';

const UNIT = [1, 0, 0, 0, 1, 0, 0, 0, 1];

test('bradfordMatrix(from, to) takes one white to the other', () => {
  const white = transformVector3(bradfordMatrix(ILLUMINANT_A, D65), xyToXyz(ILLUMINANT_A));
  xyToXyz(D65).forEach((value, i) => {
    expectWithin(white[i]!, value, 1e-14);
  });
});

test('bradfordMatrix(from, to) is undone by bradfordMatrix(to, from), and from a white to itself is nothing', () => {
  const thereAndBack = multiplyMatrix3(bradfordMatrix(D65, D50), bradfordMatrix(D50, D65));
  UNIT.forEach((value, i) => {
    expectWithin(thereAndBack[i]!, value, 1e-14);
    expectWithin(bradfordMatrix(D50, D50)[i]!, value, 1e-14);
  });
});

test('bradfordMatrix(D65, D50) is the matrix that sRGB profiles print', () => {
  // Source: the chromatic-adaptation tag of sRGB version 4 profiles, s15Fixed16, as remembered; the white of the ICC
  // connection space is D50 rounded to 0.9642, 1, 0.8249, which the tolerance allows for.
  const printed = [1.04788, 0.02292, -0.05022, 0.02959, 0.99048, -0.01707, -0.00925, 0.01508, 0.75168];
  const matrix = bradfordMatrix(D65, D50);
  printed.forEach((value, i) => {
    expectWithin(matrix[i]!, value, 5e-4);
  });
});
