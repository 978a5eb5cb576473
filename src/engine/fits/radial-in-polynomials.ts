import type { NormalEquations } from './normal-equations.ts';
import { polynomialSize, polynomialTerm } from './polynomial-basis.ts';
import { RADIAL_TERMS, radialScaleAbout } from './radial-basis.ts';

const DEGREE = 2 * (RADIAL_TERMS - 1);
const SIZE = polynomialSize(DEGREE);
const ROW = SIZE - 1; // half bandwidth of a full band: element (i, j) stands at (i + 1) × ROW + j

/**
 * Normal equations of 1, s, s², s³ about the centre (p, q), from those of all polynomials of degree 6. The matrix
 * is full, row-major, 4 × 4.
 */
export function radialInPolynomials(
  { matrix, sides }: NormalEquations,
  regionAspect: number,
  centreP: number,
  centreQ: number,
): { matrix: Float64Array; sides: Float64Array[] } {
  const powers = powersOfSquaredDistance(regionAspect, centreP, centreQ);
  const reduced = new Float64Array(RADIAL_TERMS * RADIAL_TERMS);
  const image = new Float64Array(SIZE);
  for (let b = 0; b < RADIAL_TERMS; b++) {
    const termsOfB = polynomialSize(2 * b);
    const powerB = powers[b]!;
    for (let i = 0; i < SIZE; i++) {
      let sum = 0;
      for (let j = 0; j < termsOfB; j++) {
        sum += (j <= i ? matrix[(i + 1) * ROW + j]! : matrix[(j + 1) * ROW + i]!) * powerB[j]!;
      }
      image[i] = sum;
    }
    for (let a = b; a < RADIAL_TERMS; a++) {
      reduced[a * RADIAL_TERMS + b] = product(powers[a]!, image);
      reduced[b * RADIAL_TERMS + a] = reduced[a * RADIAL_TERMS + b]!;
    }
  }
  return {
    matrix: reduced,
    sides: sides.map((side) => Float64Array.from(powers, (power) => product(power, side))),
  };
}

function powersOfSquaredDistance(regionAspect: number, centreP: number, centreQ: number): Float64Array[] {
  const { alongP, alongQ } = radialScaleAbout(regionAspect, centreP, centreQ);
  const pp = alongP * alongP;
  const qq = alongQ * alongQ;
  const square: [number, number, number][] = [
    [0, 0, pp * centreP * centreP + qq * centreQ * centreQ],
    [1, 0, -2 * pp * centreP],
    [0, 1, -2 * qq * centreQ],
    [2, 0, pp],
    [0, 2, qq],
  ];
  const powers = [new Float64Array(SIZE)];
  powers[0]![0] = 1;
  for (let power = 1; power < RADIAL_TERMS; power++) {
    const previous = powers[power - 1]!;
    const next = new Float64Array(SIZE);
    for (let sum = 0; sum <= 2 * (power - 1); sum++) {
      for (let b = 0; b <= sum; b++) {
        const value = previous[polynomialTerm(sum - b, b)]!;
        for (const [a, c, factor] of square) next[polynomialTerm(sum - b + a, b + c)]! += value * factor;
      }
    }
    powers.push(next);
  }
  return powers;
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < SIZE; i++) sum += a[i]! * b[i]!;
  return sum;
}
