import { expect, test } from 'vitest';
import { checkRegion } from '../../../src/engine/grid/check-region.ts';

const WHOLE = { left: 0, top: 0, right: 1, bottom: 1 };

test.each([
  { left: -0.2 },
  { right: 1.2 },
  { top: Number.NaN },
  { bottom: Number.POSITIVE_INFINITY },
  { left: 0.6, right: 0.4 },
  { top: 0.5, bottom: 0.5 },
])('checkRegion refuses %o', (edges) => {
  expect(() => checkRegion({ ...WHOLE, ...edges })).toThrow(RangeError);
});

test('checkRegion lets the whole frame and any part of it pass', () => {
  expect(() => checkRegion(WHOLE)).not.toThrow();
  expect(() => checkRegion({ left: 0.1, top: 0.2, right: 0.11, bottom: 0.3 })).not.toThrow();
});
