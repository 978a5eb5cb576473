import { bandLength } from '../numeric/banded-cholesky.ts';
import type { SplineSpans } from './spline-basis.ts';
import type { SurfaceBasis } from './surface-basis.ts';

/**
 * The quadratic form that stands for a spline surface's bending, ∬ f_xx² + 2 f_xy² + f_yy², by differences of its
 * coefficients; a plane costs nothing. In units in which a span is 1 long on average.
 *
 * Source: P. Eilers and B. Marx, "Flexible smoothing with B-splines and penalties", Stat. Sci. 11, 1996, brought to
 * two dimensions with the mixed term (cited from memory).
 *
 * @param spanAspect width of a span over its height, in pixels
 */
export function bendingPenalty(basis: SurfaceBasis, spans: SplineSpans, spanAspect: number): Float64Array {
  const across = spans.spansAcross + 3;
  const down = spans.spansDown + 3;
  const [stepAcross, stepDown] = down <= across ? [down, 1] : [1, across];
  const matrix = new Float64Array(bandLength(basis));
  for (let i = 0; i < across; i++) {
    for (let j = 0; j < down; j++) {
      const at = i * stepAcross + j * stepDown;
      if (i + 2 < across) {
        addSquare(matrix, basis, [at, at + stepAcross, at + 2 * stepAcross], [1, -2, 1], 1 / spanAspect ** 2);
      }
      if (j + 2 < down) {
        addSquare(matrix, basis, [at, at + stepDown, at + 2 * stepDown], [1, -2, 1], spanAspect ** 2);
      }
      if (i + 1 < across && j + 1 < down) {
        const corners = [at, at + stepAcross, at + stepDown, at + stepAcross + stepDown];
        addSquare(matrix, basis, corners, [1, -1, -1, 1], 2);
      }
    }
  }
  return matrix;
}

/** Adds weight × (Σ factor × coefficient)² to the form, of which the lower triangle is kept. */
function addSquare(
  matrix: Float64Array,
  { halfBandwidth }: SurfaceBasis,
  terms: readonly number[],
  factors: readonly number[],
  weight: number,
): void {
  for (let a = 0; a < terms.length; a++) {
    for (let b = 0; b < terms.length; b++) {
      if (terms[b]! > terms[a]!) continue;
      matrix[(terms[a]! + 1) * halfBandwidth + terms[b]!]! += weight * factors[a]! * factors[b]!;
    }
  }
}
