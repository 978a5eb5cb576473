import { choleskySolve } from '../numeric/cholesky-solve.ts';

/** A field over a grid of cells to be smoothed; NaN and weight 0 are left out. */
export interface SurfaceSamples {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float64Array;
  /** At least 0; one a cell. Equal where left out. */
  readonly weights?: Float64Array;
}

/** Products of Legendre polynomials up to a total degree, at the cells' centres scaled to −1 to 1. */
export interface LegendreSurface {
  readonly degree: number;
  /** In the order of `legendreTerms(degree)`. */
  readonly coefficients: Float64Array;
}

/** The pairs (degree across, degree down) of a surface, lowest total degree first. */
export function legendreTerms(degree: number): (readonly [number, number])[] {
  const terms: (readonly [number, number])[] = [];
  for (let total = 0; total <= degree; total++)
    for (let down = 0; down <= total; down++) terms.push([total - down, down]);
  return terms;
}

/**
 * Weighted least squares through the normal equations, which this basis keeps well conditioned.
 * The degree is lowered until there are two cells a term; `null` where not even a constant has them.
 */
export function fitLegendreSurface(samples: SurfaceSamples, degree: number): LegendreSurface | null {
  const { columns, rows, values, weights } = samples;
  let usable = 0;
  for (let cell = 0; cell < values.length; cell++)
    if (!Number.isNaN(values[cell]!) && (weights?.[cell] ?? 1) > 0) usable++;
  let fitted = degree;
  while (fitted > 0 && usable < (fitted + 1) * (fitted + 2)) fitted--;
  if (usable < 2) return null;

  const terms = legendreTerms(fitted);
  const n = terms.length;
  const across = legendreTable(columns, fitted);
  const down = legendreTable(rows, fitted);
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  const basis = new Float64Array(n);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      const value = values[cell]!;
      const weight = weights === undefined ? 1 : weights[cell]!;
      if (Number.isNaN(value) || !(weight > 0)) continue;
      for (let k = 0; k < n; k++) {
        const [i, j] = terms[k]!;
        basis[k] = across[i * columns + column]! * down[j * rows + row]!;
      }
      for (let k = 0; k < n; k++) {
        const scaled = weight * basis[k]!;
        right[k] = right[k]! + scaled * value;
        for (let l = 0; l <= k; l++) normal[k * n + l] = normal[k * n + l]! + scaled * basis[l]!;
      }
    }
  }
  let trace = 0;
  for (let k = 0; k < n; k++) trace += normal[k * n + k]!;
  for (let k = 0; k < n; k++) {
    // Cells missing on one side may leave a term undetermined; this holds it at zero and costs nothing elsewhere.
    normal[k * n + k] = normal[k * n + k]! + (trace / n) * 1e-10;
  }
  return { degree: fitted, coefficients: choleskySolve(normal, right) };
}

/** The surface at the centre of every cell of a grid of any size. */
export function evaluateLegendreSurface(
  surface: LegendreSurface,
  columns: number,
  rows: number,
): Float64Array {
  const terms = legendreTerms(surface.degree);
  const across = legendreTable(columns, surface.degree);
  const down = legendreTable(rows, surface.degree);
  const result = new Float64Array(columns * rows);
  const alongRow = new Float64Array(surface.degree + 1);
  for (let row = 0; row < rows; row++) {
    alongRow.fill(0); // the row's own polynomial in x
    terms.forEach(([i, j], k) => {
      alongRow[i] = alongRow[i]! + surface.coefficients[k]! * down[j * rows + row]!;
    });
    for (let column = 0; column < columns; column++) {
      let sum = 0;
      for (let i = 0; i <= surface.degree; i++) sum += alongRow[i]! * across[i * columns + column]!;
      result[row * columns + column] = sum;
    }
  }
  return result;
}

/** P0 … Pdegree at the centres of `count` cells, degree by degree, by Bonnet's recursion. */
function legendreTable(count: number, degree: number): Float64Array {
  const table = new Float64Array(count * (degree + 1));
  for (let cell = 0; cell < count; cell++) {
    const t = (2 * (cell + 0.5)) / count - 1;
    table[cell] = 1;
    if (degree > 0) table[count + cell] = t;
    for (let k = 2; k <= degree; k++)
      table[k * count + cell] =
        ((2 * k - 1) * t * table[(k - 1) * count + cell]! - (k - 1) * table[(k - 2) * count + cell]!) / k;
  }
  return table;
}
