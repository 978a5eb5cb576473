import { expect, test } from 'vitest';
import {
  uv1960ToUvPrime,
  uvPrimeToUv1960,
  uvPrimeToXy,
  xyToUvPrime,
  xyToXyz,
  xyzToUvPrime,
} from '../../../src/engine/colour/chromaticity.ts';
import { expectWithin } from '../../expect-within.ts';
import { numberIn, readTable } from '../../published/read-table.ts';

// Recomputed from CIE 15 and printed to 1e-6; u′v′ of the unrounded x, y, so x, y add their own half unit.
test.each(readTable('planckian-locus'))('xyToUvPrime of the black body at $T_K K', (row) => {
  const { uPrime, vPrime } = xyToUvPrime([numberIn(row, 'x'), numberIn(row, 'y')]);
  expectWithin(uPrime, numberIn(row, 'uprime'), 1.5e-6);
  expectWithin(vPrime, numberIn(row, 'vprime'), 1.5e-6);
  const { u, v } = uvPrimeToUv1960({ uPrime, vPrime });
  expectWithin(u, numberIn(row, 'u1960'), 1.5e-6);
  expectWithin(v, numberIn(row, 'v1960'), 1.5e-6);
});

test('uvPrimeToXy and uv1960ToUvPrime undo their inverses, and XYZ agrees with x, y', () => {
  for (let x = 0.05; x < 0.7; x += 0.05)
    for (let y = 0.05; y < 0.95 - x; y += 0.05) {
      const colour = xyToUvPrime([x, y]);
      const back = uvPrimeToXy(colour);
      expectWithin(back[0], x, 1e-13);
      expectWithin(back[1], y, 1e-13);
      const viaUv = uv1960ToUvPrime(uvPrimeToUv1960(colour));
      expectWithin(viaUv.vPrime, colour.vPrime, 1e-15);
      const [X, Y, Z] = xyToXyz([x, y]);
      const fromXyz = xyzToUvPrime(7 * X, 7 * Y, 7 * Z);
      expectWithin(fromXyz.uPrime, colour.uPrime, 1e-13);
      expectWithin(fromXyz.vPrime, colour.vPrime, 1e-13);
    }
});

test('xyzToUvPrime of no light and of NaN is NaN', () => {
  for (const [x, y, z] of [
    [0, 0, 0],
    [-1, -1, -1],
    [Number.NaN, 1, 1],
  ] as const) {
    expect(xyzToUvPrime(x, y, z).uPrime).toBeNaN();
    expect(xyzToUvPrime(x, y, z).vPrime).toBeNaN();
  }
  expect(xyToUvPrime([Number.NaN, 0.3]).uPrime).toBeNaN();
});
