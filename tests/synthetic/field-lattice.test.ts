import { expect, test } from 'vitest';
import { quickened } from './field-lattice.ts';
import { randomField } from './known-field.ts';

test('quickened(field) stays within 2e-6 EV of a smooth field', () => {
  let largestEv = 0;
  for (const family of ['radial', 'two-bumps', 'sinusoid'] as const) {
    const { field } = randomField(31, { family, spreadEv: 3 });
    const quick = quickened(field);
    expect(quick).not.toBe(field);
    for (let i = 0; i <= 90; i++) {
      for (let j = 0; j <= 90; j++) {
        const [x, y] = [i / 90, j / 90];
        const light = field(x, y);
        quick(x, y).forEach((value, channel) => {
          largestEv = Math.max(largestEv, Math.abs(Math.log2(value / light[channel]!)));
        });
      }
    }
  }
  console.log(`measured: a lattice stays within ${largestEv.toExponential(1)} EV of its field`);
  expect(largestEv).toBeLessThan(2e-6);
});

test('quickened(field) leaves a field with a kink as it is', () => {
  const { field } = randomField(31, { family: 'kinked', spreadEv: 1 });
  expect(quickened(field)).toBe(field);
});
