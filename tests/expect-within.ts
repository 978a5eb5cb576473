import { expect } from 'vitest';

/** Fails unless `actual` lies within `tolerance` of `expected`, both in the same unit; NaN never does. */
export function expectWithin(actual: number, expected: number, tolerance: number): void {
  const difference = Math.abs(actual - expected);
  expect(
    difference <= tolerance,
    `${actual} lies ${difference} from ${expected}; at most ${tolerance} allowed`,
  ).toBe(true);
}
