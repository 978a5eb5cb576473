import { expect, test } from 'vitest';
import { doubtEv, doubtSays, NO_DOUBT } from '../../../src/engine/frame/light-doubt.ts';
import { toneCurveAllowance } from '../../../src/engine/frame/tone-curve-allowance.ts';
import { expectWithin } from '../../expect-within.ts';

const BRIGHT = 0.7;
const DARK = 0.35;

test('doubtEv(doubt, bright, dark) is nothing for light that is sure, and for no falloff', () => {
  expect(doubtEv(NO_DOUBT, BRIGHT, DARK)).toBe(0);
  const every = { toneCurve: 'counted', responseEv: 0.1, blackLight: 0.01 } as const;
  expect(doubtEv(every, BRIGHT, BRIGHT)).toBe(0);
  expect(doubtEv(every, Number.NaN, 0)).toBe(0);
});

test('doubtEv(doubt, bright, dark) counts a tone curve only where cameras lay one on by themselves', () => {
  expect(doubtEv({ ...NO_DOUBT, toneCurve: 'told' }, BRIGHT, DARK)).toBe(0);
  expect(doubtEv({ ...NO_DOUBT, toneCurve: 'counted' }, BRIGHT, DARK)).toBe(toneCurveAllowance(BRIGHT, DARK));
});

test('doubtEv(doubt, bright, dark) weighs a black level by how dark it gets, and a response by the range', () => {
  const black = { ...NO_DOUBT, blackLight: 0.001 };
  // to first order 0.001 / (dark × ln 2) less the same of the bright level
  expectWithin(doubtEv(black, 0.5, 0.05), (0.001 / Math.LN2) * (1 / 0.05 - 1 / 0.5), 3e-4);
  const response = { ...NO_DOUBT, responseEv: 0.04 };
  expectWithin(doubtEv(response, 0.8, 0.2), 0.04, 1e-12);
  expectWithin(doubtEv(response, 0.8, 0.8 / 2 ** (1 / 6)), 0.02, 1e-12);
  expectWithin(
    doubtEv({ ...response, ...black, responseEv: 0.04 }, 0.5, 0.05),
    Math.hypot(0.04, doubtEv(black, 0.5, 0.05)),
    1e-12,
  );
});

test('doubtEv(doubt, bright, dark) trusts a response ever less beyond the light that its bracket showed', () => {
  const seen = { ...NO_DOUBT, responseSeen: [0.1, 0.4] } as const;
  expect(doubtEv(seen, 0.4, 0.1)).toBe(0);
  expectWithin(doubtEv(seen, 0.4 * Math.SQRT2, 0.4), 0.125, 1e-12); // half a stop beyond
  expectWithin(doubtEv(seen, 0.1, 0.1 / Math.SQRT2), 0.125, 1e-12);
  expectWithin(doubtEv(seen, 0.4 * Math.SQRT2, 0.1 / Math.SQRT2), 0.25, 1e-12);
  // farther than a stop all that is read may be wrong
  expectWithin(doubtEv(seen, 0.025, 0.0125), 1, 1e-12);
  expect(doubtSays(seen, 0.4, 0.1)).toBe('');
  expect(doubtSays(seen, 0.4 * Math.SQRT2, 0.2)).toMatch(
    /lies beyond what the bracket showed: .* leaves 0\.1 stop of doubt/,
  );
});

test('doubtSays(doubt, bright, dark) gives the stops, and whether the ± has them', () => {
  expect(doubtSays(NO_DOUBT, BRIGHT, DARK)).toBe('');
  const stops = toneCurveAllowance(BRIGHT, DARK).toFixed(1);
  expect(doubtSays({ ...NO_DOUBT, toneCurve: 'counted' }, BRIGHT, DARK)).toContain(
    `by up to ${stops} stop (own estimate), which the ± allows for.`,
  );
  expect(doubtSays({ ...NO_DOUBT, toneCurve: 'told' }, BRIGHT, DARK)).toContain(
    'which the ± does not allow for.',
  );
  expect(doubtSays({ ...NO_DOUBT, toneCurve: 'told' }, 0.9, 0.5)).toMatch(
    /may hide more still: expose a stop lower\.$/,
  );
  expect(doubtSays({ ...NO_DOUBT, responseEv: 0.03 }, 0.8, 0.2)).toBe(
    'That leaves 0.03 stop of doubt over this frame’s range of light, which the ± allows for.',
  );
  expect(doubtSays({ ...NO_DOUBT, responseEv: 0.003 }, 0.8, 0.2)).toBe('');
});
