import { expect, test } from 'vitest';
import { checkTolerance } from '../../src/engine/check-tolerance.ts';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../../src/engine/tolerances.ts';

test('checkTolerance lets every built-in tolerance pass', () => {
  for (const tolerance of TOLERANCES) expect(() => checkTolerance(tolerance)).not.toThrow();
});

test.each([
  { limit: Number.NaN },
  { limit: 0 },
  { tintDeltaUv: -1 },
  { castDeltaUv: Number.POSITIVE_INFINITY },
])('checkTolerance refuses %o', (part) => {
  expect(() => checkTolerance({ ...DEFAULT_TOLERANCE, ...part })).toThrow(RangeError);
});

test('checkTolerance refuses an unknown measure', () => {
  const odd = { ...DEFAULT_TOLERANCE, measure: 'by-eye' as 'range' };
  expect(() => checkTolerance(odd)).toThrow(/range, from-centre/);
});

test.each([null, undefined, 3])('checkTolerance refuses %s, which is no tolerance', (none) => {
  expect(() => checkTolerance(none as unknown as typeof DEFAULT_TOLERANCE)).toThrow(
    /a tolerance is an object/,
  );
});
