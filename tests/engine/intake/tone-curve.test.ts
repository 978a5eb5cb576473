import { expect, test } from 'vitest';
import { evaluateToneCurve, readToneCurve } from '../../../src/engine/intake/tone-curve.ts';
import { expectWithin } from '../../expect-within.ts';
import { curveElement, parametricElement } from './icc-bytes.ts';

const at = (element: Uint8Array, code: number) => evaluateToneCurve(readToneCurve(element)!, code);

test('readToneCurve(element) reads a curve of no entry as the identity and of one as an exponent', () => {
  expectWithin(at(curveElement([]), 0.3), 0.3, 0);
  expectWithin(at(curveElement([2.2 * 256]), 0.5), 0.5 ** (563 / 256), 1e-15);
});

test('readToneCurve(element) interpolates a table between its entries', () => {
  const table = curveElement([0, 6553.5, 65535]);
  expectWithin(at(table, 0.25), 6553 / 65535 / 2, 1e-12);
  expectWithin(at(table, 0.75), (6553 / 65535 + 1) / 2, 1e-12);
  expectWithin(at(table, 1), 1, 0);
});

test('readToneCurve(element) computes all five parametric kinds as ICC.1 table 65 has them', () => {
  // g = 2, a = 0.9, b = 0.1, c = 0.05, d = 0.04, e = 0.01, f = 0.02, worked out by hand
  const cases: readonly (readonly [number, readonly number[], number, number])[] = [
    [0, [2], 0.5, 0.25],
    [1, [2, 1.25, -0.25], 0.6, 0.25],
    [1, [2, 1.25, -0.25], 0.1, 0],
    [2, [2, 1.25, -0.25, 0.05], 0.6, 0.3],
    [2, [2, 1.25, -0.25, 0.05], 0.1, 0.05],
    [3, [2, 0.9, 0.1, 0.05, 0.04], 0.5, 0.3025],
    [3, [2, 0.9, 0.1, 0.05, 0.04], 0.02, 0.001],
    [4, [2, 0.9, 0.1, 0.05, 0.04, 0.01, 0.02], 0.5, 0.3125],
    [4, [2, 0.9, 0.1, 0.05, 0.04, 0.01, 0.02], 0.02, 0.021],
  ];
  for (const [kind, parameters, code, light] of cases)
    expectWithin(at(parametricElement(kind, parameters), code), light, 3e-5); // parameters come in steps of 1/65536
});

test('readToneCurve(element) gives null for what is no rising curve', () => {
  const bad = [
    curveElement([65535, 0]),
    curveElement([5, 5, 5]),
    curveElement([0, 65535]).subarray(0, 14),
    parametricElement(5, [1, 1, 1, 1, 1, 1, 1]),
    parametricElement(3, [2.4, 1]),
    parametricElement(1, [2, 0, 0.5]),
    new Uint8Array(3),
    new Uint8Array(40),
  ];
  for (const element of bad) expect(readToneCurve(element)).toBeNull();
});
