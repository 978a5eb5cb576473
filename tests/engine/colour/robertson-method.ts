import type { Uv1960 } from '../../../src/engine/colour/chromaticity.ts';
import { numberIn, readTable } from '../../published/read-table.ts';

const rows = readTable('robertson-isotemperature').map((row) => {
  const slope = numberIn(row, 'slope_t');
  const length = Math.hypot(1, slope);
  return {
    mired: numberIn(row, 'mired'),
    u: numberIn(row, 'u1960'),
    v: numberIn(row, 'v1960'),
    slope,
    alongU: 1 / length,
    alongV: slope / length,
  };
});

/**
 * Colour temperature by interpolation between the isotherms of the table, as a second method to hold the engine's
 * against. Between rows it takes the chord for the locus. `null` outside the table.
 * Source: A. R. Robertson, "Computation of correlated color temperature and distribution temperature",
 * J. Opt. Soc. Am. 58, 1528 (1968).
 */
export function robertsonMethod({ u, v }: Uv1960): { mired: number; duv: number } | null {
  const distance = ({ u: ui, v: vi, slope }: (typeof rows)[number]) =>
    (v - vi - slope * (u - ui)) / Math.hypot(1, slope);
  for (let i = 1; i < rows.length; i++) {
    const before = rows[i - 1]!;
    const after = rows[i]!;
    const d0 = distance(before);
    const d1 = distance(after);
    if (d0 === 0 || d0 * d1 < 0 || (d1 === 0 && i === rows.length - 1)) {
      const share = d0 / (d0 - d1);
      const mix = (a: number, b: number) => a + share * (b - a);
      // The isotherms run down to the right (slope below 0), so "up" is against their direction.
      const alongU = mix(before.alongU, after.alongU);
      const alongV = mix(before.alongV, after.alongV);
      const length = Math.hypot(alongU, alongV);
      const du = u - mix(before.u, after.u);
      const dv = v - mix(before.v, after.v);
      return { mired: mix(before.mired, after.mired), duv: -(du * alongU + dv * alongV) / length };
    }
  }
  return null;
}
