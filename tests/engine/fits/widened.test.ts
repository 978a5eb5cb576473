import { expect, test } from 'vitest';
import type { FigurePlusMinus } from '../../../src/engine/fits/figure-plus-minus.ts';
import { widened } from '../../../src/engine/fits/widened.ts';

test('widened(plusMinus, more) adds squares where there is more, and leaves the rest and the given as they are', () => {
  const noise = { spreadEv: 3, cellEv: 0, tintDeltaUv: 1, castMired: Number.NaN } as FigurePlusMinus;
  expect(widened(noise, { spreadEv: 4, cellEv: 2, castMired: 1 })).toEqual({
    ...noise,
    spreadEv: 5,
    cellEv: 2,
    castMired: Number.NaN,
  });
  expect(noise.spreadEv).toBe(3);
});
