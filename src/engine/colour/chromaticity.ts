/** A CIE 1931 chromaticity, x then y, 2° observer. */
export type ChromaticityXy = readonly [x: number, y: number];

/** A CIE 1976 chromaticity, 2° observer. */
export interface UvPrime {
  readonly uPrime: number;
  readonly vPrime: number;
}

/** A CIE 1960 chromaticity: u = u′, v = 2/3 v′. Only colour temperature and Duv are still defined in it. */
export interface Uv1960 {
  readonly u: number;
  readonly v: number;
}

/**
 * Chromaticity of a tristimulus value; its scale does not matter. No light (X + 15 Y + 3 Z not above 0) and NaN
 * give NaN.
 * Source: CIE e-ILV 17-23-074 (ISO/CIE 11664-5).
 */
export function xyzToUvPrime(x: number, y: number, z: number): UvPrime {
  const denominator = x + 15 * y + 3 * z;
  if (!(denominator > 0)) return { uPrime: Number.NaN, vPrime: Number.NaN };
  return { uPrime: (4 * x) / denominator, vPrime: (9 * y) / denominator };
}

/** Source: CIE e-ILV 17-23-074. NaN in, NaN out. */
export function xyToUvPrime([x, y]: ChromaticityXy): UvPrime {
  const denominator = -2 * x + 12 * y + 3;
  return { uPrime: (4 * x) / denominator, vPrime: (9 * y) / denominator };
}

/** The inverse of {@link xyToUvPrime}. NaN in, NaN out. */
export function uvPrimeToXy({ uPrime, vPrime }: UvPrime): ChromaticityXy {
  const denominator = 6 * uPrime - 16 * vPrime + 12;
  return [(9 * uPrime) / denominator, (4 * vPrime) / denominator];
}

/** The tristimulus value of Y = 1 at a chromaticity. NaN in, NaN out. */
export function xyToXyz([x, y]: ChromaticityXy): readonly [x: number, y: number, z: number] {
  return [x / y, 1, (1 - x - y) / y];
}

export function uvPrimeToUv1960({ uPrime, vPrime }: UvPrime): Uv1960 {
  return { u: uPrime, v: (2 / 3) * vPrime };
}

/** The inverse of {@link uvPrimeToUv1960}. */
export function uv1960ToUvPrime({ u, v }: Uv1960): UvPrime {
  return { uPrime: u, vPrime: 1.5 * v };
}
