import { test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { xyzOfSrgbLight } from '../colour-truth.ts';
import { castOf } from '../field-truth.ts';
import { EVEN_SET } from './even-set.ts';
import { photographSet } from './photograph-set.ts';

test('the lens’s tint reads as asked in the corner, a quarter of it halfway, and keeps luminance', () => {
  for (const [mired, duv] of [
    [18, 0.002],
    [-12, -0.001],
  ] as const) {
    const colour = { cornerMired: mired, cornerDuv: duv };
    const { field } = photographSet({ ...EVEN_SET, lens: { naturalFall: false, mechanicalEv: 0, colour } });
    for (const [x, y, share] of [
      [0, 0, 1],
      [1, 0, 1],
      [0.75, 0.75, 0.25],
      [0.5, 0.5, 0],
    ] as const) {
      const xyz = xyzOfSrgbLight(field(x, y));
      const cast = castOf(xyz);
      expectWithin(cast.mired, share * mired, 0.1);
      expectWithin(cast.duv, share * duv, 2e-5);
      expectWithin(xyz[1], 0.5, 1e-4);
    }
  }
});
