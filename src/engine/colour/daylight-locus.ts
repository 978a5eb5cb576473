import type { ChromaticityXy } from './chromaticity.ts';

/**
 * CIE 1931 chromaticity of a phase of daylight, 4000 K to 25 000 K; NaN outside. The nominal D50, D55, D65 and D75
 * lie at their names' temperature × 1.4388 / 1.4380, for the constant c2 has changed since they were named.
 * Source: CIE 15, method of calculating D illuminants (Judd, MacAdam and Wyszecki, J. Opt. Soc. Am. 54, 1964).
 */
export function daylightXy(kelvin: number): ChromaticityXy {
  if (!(kelvin >= 4000 && kelvin <= 25_000)) return [Number.NaN, Number.NaN];
  const k = 1000 / kelvin;
  const x =
    kelvin <= 7000
      ? ((-4.607 * k + 2.9678) * k + 0.09911) * k + 0.244063
      : ((-2.0064 * k + 1.9018) * k + 0.24748) * k + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}
