import { choleskySolve } from '../numeric/cholesky-solve.ts';

/** A wave under smooth light along a line of values, by least squares. */
export interface WaveFit {
  /** Half the distance from crest to trough, in the values' unit. */
  readonly amplitude: number;
  /** cos and sin parts about the middle of the line. */
  readonly cosine: number;
  readonly sine: number;
  /** What the wave and the smooth light leave over, a sum of squares. */
  readonly left: number;
}

/** Legendre polynomials P0 … Pdegree at the centres of `count` places, degree by degree. */
export function legendreLines(count: number, degree: number): Float64Array[] {
  const lines: Float64Array[] = [];
  for (let k = 0; k <= degree; k++) {
    const line = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const t = (2 * (i + 0.5)) / count - 1;
      line[i] =
        k === 0 ? 1 : k === 1 ? t : ((2 * k - 1) * t * lines[k - 1]![i]! - (k - 1) * lines[k - 2]![i]!) / k;
    }
    lines.push(line);
  }
  return lines;
}

/** Least squares of values on columns; the coefficients and the sum of squares left over. */
export function fitColumns(
  values: Float64Array,
  columns: readonly Float64Array[],
): { coefficients: Float64Array; left: number } {
  const n = columns.length;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i]! ** 2;
  for (let k = 0; k < n; k++) {
    const column = columns[k]!;
    for (let i = 0; i < values.length; i++) right[k]! += column[i]! * values[i]!;
    for (let l = 0; l <= k; l++) {
      let sum = 0;
      for (let i = 0; i < values.length; i++) sum += column[i]! * columns[l]![i]!;
      normal[k * n + l] = sum;
    }
    normal[k * n + k]! *= 1 + 1e-9; // a wave that smooth light can imitate stays solvable
  }
  const coefficients = choleskySolve(normal, right.slice());
  const explained = coefficients.reduce((sum, value, k) => sum + value * right[k]!, 0);
  return { coefficients, left: Math.max(0, total - explained) };
}

/** Fits a wave of so many cycles over the line, and the columns of smooth light with it. */
export function fitWave(values: Float64Array, smooth: readonly Float64Array[], cycles: number): WaveFit {
  const n = values.length;
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const angle = 2 * Math.PI * cycles * ((i + 0.5) / n - 0.5);
    cos[i] = Math.cos(angle);
    sin[i] = Math.sin(angle);
  }
  const { coefficients, left } = fitColumns(values, [...smooth, cos, sin]);
  const cosine = coefficients[smooth.length]!;
  const sine = coefficients[smooth.length + 1]!;
  return { amplitude: Math.hypot(cosine, sine), cosine, sine, left };
}
