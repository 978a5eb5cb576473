import { expect, test } from 'vitest';
import {
  invertMatrix3,
  type Matrix3,
  multiplyMatrix3,
  transformVector3,
} from '../../../src/engine/numeric/matrix3.ts';
import { expectWithin } from '../../expect-within.ts';

const A: Matrix3 = [2, -1, 0.5, 3, 4, -2, 1, 0, 5];
const B: Matrix3 = [0, 1, 2, -3, 0.5, 1, 4, 4, -1];

test('invertMatrix3(A) times A is the unit matrix, from either side', () => {
  for (const product of [multiplyMatrix3(invertMatrix3(A), A), multiplyMatrix3(A, invertMatrix3(A))]) {
    product.forEach((value, at) => {
      expectWithin(value, at % 4 === 0 ? 1 : 0, 1e-15);
    });
  }
});

test('transformVector3(A·B, v) is A applied to B applied to v', () => {
  const whole = transformVector3(multiplyMatrix3(A, B), [1, -2, 3]);
  transformVector3(A, transformVector3(B, [1, -2, 3])).forEach((value, at) => {
    expectWithin(whole[at]!, value, 1e-13);
  });
});

test('invertMatrix3 refuses a singular matrix', () => {
  expect(() => invertMatrix3([1, 0, 0, 0, 1, 0, 0, 0, 0])).toThrow(RangeError);
  expect(() => invertMatrix3([Number.NaN, 0, 0, 0, 1, 0, 0, 0, 1])).toThrow(RangeError);
});
