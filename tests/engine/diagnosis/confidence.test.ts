import { expect, test } from 'vitest';
import { confidenceOf } from '../../../src/engine/diagnosis/confidence.ts';
import { expectWithin } from '../../expect-within.ts';

/** Probability that a standard normal lies within ±z, by Simpson's rule over 2 000 steps. */
function withinNormal(z: number): number {
  const steps = 2000;
  let sum = 0;
  for (let k = 0; k <= steps; k++) {
    const weight = k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2;
    sum += weight * Math.exp(-0.5 * ((z * k) / steps) ** 2);
  }
  return (2 * sum * (z / steps)) / 3 / Math.sqrt(2 * Math.PI);
}

test('confidenceOf(effect, plusMinus) is the normal probability of the effect’s size', () => {
  for (const ratio of [0.1, 0.5, 1, 1.3, 2, 3])
    expectWithin(confidenceOf(ratio * 0.02, 0.02), withinNormal(1.959963985 * ratio), 2e-7);
});

test('confidenceOf(effect, plusMinus) is 95 % where the effect equals its ±', () => {
  expectWithin(confidenceOf(0.4, 0.4), 0.95, 1e-6);
});

test('confidenceOf(effect, plusMinus) knows no doubt without a ± and no effect below zero', () => {
  expect(confidenceOf(0.1, 0)).toBe(1);
  expect(confidenceOf(0, 0.1)).toBe(0);
  expect(confidenceOf(-1, 0.1)).toBe(0);
  expect(confidenceOf(Number.NaN, 0.1)).toBe(0);
});
