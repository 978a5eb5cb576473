import { readFileSync } from 'node:fs';

/** Rows of nm, x̄, ȳ, z̄. Source: see tests/published/SOURCES.md. */
const OBSERVER: readonly (readonly number[])[] = readFileSync(
  new URL('../published/cie-1931-observer.csv', import.meta.url),
  'utf8',
)
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').map(Number));

/** CIE 1960 u and v of a black body: Planck's law (c2 = 1.4388e-2 m K) summed over the CIE 1931 observer. */
export function planckUv(mired: number): [number, number] {
  let [x, y, z] = [0, 0, 0];
  for (const [nm, xBar, yBar, zBar] of OBSERVER as readonly (readonly [number, number, number, number])[]) {
    const radiance = nm ** -5 / Math.expm1((1.4388e-2 * mired) / (nm * 1e-3));
    x += radiance * xBar;
    y += radiance * yBar;
    z += radiance * zBar;
  }
  const sum = x + 15 * y + 3 * z;
  return [(4 * x) / sum, (6 * y) / sum];
}
