import { expect, test } from 'vitest';
import { GELS } from '../../../src/engine/moves/gel-strengths.ts';

/*
 * Trade values, one table; ranges of what is sold are remembered and not confirmed. No two makers' gels are the same.
 */
const SOLD = [
  ['full orange', 159, 131, 167],
  ['half orange', 109, 81, 109],
  ['quarter orange', 64, 42, 64],
  ['eighth orange', 26, 20, 26],
  ['full blue', -137, -137, -131],
  ['half blue', -78, -81, -68],
  ['quarter blue', -35, -49, -30],
  ['eighth blue', -18, -20, -12],
] as const;

test.each(SOLD)('%s shifts by %d mired', (name, mired, least, most) => {
  expect(GELS.find((gel) => gel.name === name)).toEqual({ name, mired });
  expect(mired).toBeGreaterThanOrEqual(least);
  expect(mired).toBeLessThanOrEqual(most);
});

test('there is no other, and full blue makes 3200 K what its makers say, 5700 K', () => {
  expect(GELS).toHaveLength(SOLD.length);
  const full = GELS.find(({ name }) => name === 'full blue')!.mired;
  expect(Math.round(1e6 / 5700 - 1e6 / 3200)).toBe(full);
});
