import type { Uv1960 } from '../../../src/engine/colour/chromaticity.ts';
import { miredToKelvin } from '../../../src/engine/colour/mired.ts';
import { numberIn, readTable } from '../../published/read-table.ts';

const observer = readTable('cie-1931-observer').map((row) => ({
  nm: numberIn(row, 'nm'),
  x: numberIn(row, 'xbar'),
  y: numberIn(row, 'ybar'),
  z: numberIn(row, 'zbar'),
}));

/** Planck's law (c2 = 1.4388e-2 m K) over the observer, summed at 5 nm from 360 nm. */
export function blackBodyUv1960(mired: number, untilNm = 830): Uv1960 {
  let X = 0;
  let Y = 0;
  let Z = 0;
  for (const { nm, x, y, z } of observer) {
    if (nm > untilNm) break;
    const radiance = nm ** -5 / Math.expm1(1.4388e-2 / (nm * 1e-9 * miredToKelvin(mired)));
    X += radiance * x;
    Y += radiance * y;
    Z += radiance * z;
  }
  const denominator = X + 15 * Y + 3 * Z;
  return { u: (4 * X) / denominator, v: (6 * Y) / denominator };
}
