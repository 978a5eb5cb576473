/** The least-squares solution of an overdetermined system. */
export interface LeastSquares {
  readonly parameters: Float64Array;
  /** Observed minus fitted, one a row, not weighted. */
  readonly residuals: Float64Array;
  /** Sum of squared residuals, weighted. */
  readonly residualSum: number;
  /** (Aᵀ·W·A)⁻¹, row-major: the parameters' covariance where each weight is one over its row's variance. */
  readonly covariance: Float64Array;
}

/** A column whose part orthogonal to the columns before it falls below this share of it counts as dependent. */
const DEPENDENT = 1e-12;

/**
 * Minimises Σ wᵢ (yᵢ − Aᵢ·x)² by Householder reflections, which do not square the condition number as normal
 * equations do. `design` is row-major with `columns` columns and `observed.length` rows. A row of weight 0 does
 * not count.
 *
 * Source: G. Golub, "Numerical methods for solving linear least squares problems", Numer. Math. 7, 1965 (cited
 * from memory).
 *
 * @throws RangeError where shapes disagree, a weight is negative, fewer rows count than there are columns, or the
 * columns depend on each other.
 */
export function leastSquares(
  design: Float64Array,
  columns: number,
  observed: Float64Array,
  weights?: Float64Array,
): LeastSquares {
  const rows = observed.length;
  if (design.length !== rows * columns || (weights && weights.length !== rows)) {
    throw new RangeError(
      `expected ${rows} × ${columns} elements and ${rows} weights, found ${design.length} and ${weights?.length ?? 'none'}`,
    );
  }
  const a = design.slice();
  const b = observed.slice();
  let counted = rows;
  if (weights) counted = scaleRows(a, columns, b, weights);
  if (counted < columns) throw new RangeError(`${counted} rows count; ${columns} parameters need as many`);

  const diagonal = reduceToTriangle(a, columns, b);
  const parameters = backSubstitute(a, columns, diagonal, b);
  let residualSum = 0;
  for (let i = columns; i < rows; i++) residualSum += b[i]! * b[i]!;
  const residuals = observed.slice();
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++) residuals[i]! -= design[i * columns + j]! * parameters[j]!;
  }
  return { parameters, residuals, residualSum, covariance: covarianceOf(a, columns, diagonal) };
}

function scaleRows(a: Float64Array, columns: number, b: Float64Array, weights: Float64Array): number {
  let counted = 0;
  for (let i = 0; i < b.length; i++) {
    const weight = weights[i]!;
    if (!(weight >= 0)) throw new RangeError(`weight ${i} is ${weight}; it must not be negative`);
    if (weight > 0) counted++;
    const root = Math.sqrt(weight);
    // a row that does not count may hold NaN, which 0 × NaN would spread
    b[i] = weight > 0 ? b[i]! * root : 0;
    for (let j = i * columns; j < (i + 1) * columns; j++) a[j] = weight > 0 ? a[j]! * root : 0;
  }
  return counted;
}

/** Modifies `a` to hold R above its diagonal and `b` to hold Qᵀ·b; returns R's diagonal. */
function reduceToTriangle(a: Float64Array, columns: number, b: Float64Array): Float64Array {
  const rows = b.length;
  const diagonal = new Float64Array(columns);
  for (let j = 0; j < columns; j++) {
    let below = 0;
    let whole = 0;
    for (let i = 0; i < rows; i++) {
      const square = a[i * columns + j]! ** 2;
      whole += square;
      if (i >= j) below += square;
    }
    if (!(below > DEPENDENT * DEPENDENT * whole)) {
      throw new RangeError(`column ${j} depends on the columns before it: the fit has no single answer`);
    }
    const pivot = a[j * columns + j]!;
    const norm = pivot > 0 ? -Math.sqrt(below) : Math.sqrt(below);
    diagonal[j] = norm;
    a[j * columns + j] = pivot - norm;
    const scale = 1 / (norm * (norm - pivot));
    for (let k = j + 1; k <= columns; k++) {
      let product = 0;
      for (let i = j; i < rows; i++)
        product += a[i * columns + j]! * (k < columns ? a[i * columns + k]! : b[i]!);
      product *= scale;
      for (let i = j; i < rows; i++) {
        if (k < columns) a[i * columns + k]! -= product * a[i * columns + j]!;
        else b[i]! -= product * a[i * columns + j]!;
      }
    }
  }
  return diagonal;
}

function backSubstitute(
  r: Float64Array,
  columns: number,
  diagonal: Float64Array,
  b: Float64Array,
): Float64Array {
  const x = new Float64Array(columns);
  for (let i = columns - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < columns; k++) sum -= r[i * columns + k]! * x[k]!;
    x[i] = sum / diagonal[i]!;
  }
  return x;
}

function covarianceOf(r: Float64Array, columns: number, diagonal: Float64Array): Float64Array {
  const inverse = new Float64Array(columns * columns);
  const unit = new Float64Array(columns);
  for (let j = 0; j < columns; j++) {
    unit.fill(0)[j] = 1;
    const column = backSubstitute(r, columns, diagonal, unit);
    for (let i = 0; i < columns; i++) inverse[i * columns + j] = column[i]!;
  }
  const covariance = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < columns; j++) {
      let sum = 0;
      for (let k = 0; k < columns; k++) sum += inverse[i * columns + k]! * inverse[j * columns + k]!;
      covariance[i * columns + j] = sum;
    }
  }
  return covariance;
}
