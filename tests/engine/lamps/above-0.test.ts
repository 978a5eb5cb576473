import { expect, test } from 'vitest';
import { above0 } from '../../../src/engine/lamps/above-0.ts';
import { expectWithin } from '../../expect-within.ts';

test.each([0.005, 0.2, 3])(
  'above0(value, %d) is above 0, rises everywhere, and is the figure itself well above',
  (softness) => {
    let last = 0;
    for (let scaled = -40; scaled <= 60; scaled += 0.25) {
      const found = above0(scaled * softness, softness);
      expect(found).toBeGreaterThan(last);
      last = found;
      // an overshoot that dies away as e to the minus figure
      if (scaled > 0) expectWithin(found / softness - scaled, 0, Math.exp(-scaled) + 1e-9);
      if (scaled < 0) expect(found / softness).toBeLessThan(Math.exp(scaled) * (1 + 1e-12));
    }
  },
);

test('above0 has no step: its slope at 0 is a half, and where it becomes the figure itself nothing jumps', () => {
  expectWithin((above0(1e-6, 0.2) - above0(-1e-6, 0.2)) / 2e-6, 0.5, 1e-9);
  expectWithin(above0(30 * 0.2 + 1e-9, 0.2), above0(30 * 0.2 - 1e-9, 0.2), 3e-9);
  expect(above0(1000, 0.2)).toBe(1000);
  expect(above0(-1000, 0.2)).toBe(0);
});
