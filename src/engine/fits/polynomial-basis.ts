import type { FrameRectangle } from '../reading.ts';
import { acrossRegion, downRegion, type SurfaceBasis } from './surface-basis.ts';

/** All products pᵃ·qᵇ with a + b ≤ degree: ordered by a + b, and within it by b. */
export function polynomialBasis(region: FrameRectangle, degree: number): SurfaceBasis {
  const size = polynomialSize(degree);
  return {
    size,
    halfBandwidth: size - 1,
    runs: 1,
    runLength: size,
    runStride: size,
    write(x, y, values, offset) {
      const p = acrossRegion(x, region);
      const q = downRegion(y, region);
      values[offset] = 1;
      let previous = offset;
      let at = offset + 1;
      for (let sum = 1; sum <= degree; sum++) {
        for (let b = 0; b < sum; b++) values[at + b] = values[previous + b]! * p;
        values[at + sum] = values[previous + sum - 1]! * q;
        previous = at;
        at += sum + 1;
      }
      return 0;
    },
  };
}

export function polynomialSize(degree: number): number {
  return ((degree + 1) * (degree + 2)) / 2;
}

/** Where pᵃ·qᵇ stands in that order. */
export function polynomialTerm(a: number, b: number): number {
  return ((a + b) * (a + b + 1)) / 2 + b;
}
