import { readFileSync } from 'node:fs';
import { planckUv } from './planck-locus.ts';

/** CIE XYZ against D65, white Y = 1. */
export type Xyz = readonly [number, number, number];

/**
 * XYZ of linear sRGB light, from the primaries R (0.64, 0.33), G (0.30, 0.60), B (0.15, 0.06) and the white D65
 * (0.3127, 0.3290) of IEC 61966-2-1:1999: each primary's XYZ scaled so that their sum is the white.
 */
export function xyzOfSrgbLight([red, green, blue]: readonly [number, number, number]): Xyz {
  const m = SRGB_TO_XYZ;
  return [
    m[0]![0]! * red + m[0]![1]! * green + m[0]![2]! * blue,
    m[1]![0]! * red + m[1]![1]! * green + m[1]![2]! * blue,
    m[2]![0]! * red + m[2]![1]! * green + m[2]![2]! * blue,
  ];
}

/** Linear sRGB light of XYZ; may lie outside 0 to 1. */
export function srgbLightOfXyz(xyz: Xyz): [number, number, number] {
  return solve3(SRGB_TO_XYZ, xyz);
}

/** CIE 1976 u′, v′. Source: CIE 15. */
export function uvPrimeOfXyz([x, y, z]: Xyz): [number, number] {
  const sum = x + 15 * y + 3 * z;
  return [(4 * x) / sum, (9 * y) / sum];
}

/** Place relative to the Planckian locus, absolute: mired of the nearest point, signed CIE 1960 distance (green +). */
export interface LocusPlace {
  readonly mired: number;
  readonly duv: number;
}

/** The nearest point of the Planckian locus between 20 and 700 mired, searched on Planck's law itself. */
export function locusPlace(uPrime: number, vPrime: number): LocusPlace {
  const u = uPrime;
  const v = (2 / 3) * vPrime;
  const distance = (mired: number) => {
    const [locusU, locusV] = planckUv(mired);
    return Math.hypot(u - locusU, v - locusV);
  };
  let best = 20;
  for (let mired = 20; mired <= 700; mired += 10) if (distance(mired) < distance(best)) best = mired;
  let low = best - 10;
  let high = best + 10;
  while (high - low > 1e-7) {
    const third = (high - low) / 3;
    if (distance(low + third) < distance(high - third)) high -= third;
    else low += third;
  }
  const mired = 0.5 * (low + high);
  return { mired, duv: Math.sign(v - planckUv(mired)[1]) * distance(mired) };
}

/**
 * CIE 1960 u and v of a black body, by a cubic spline in mired through the 31 points of A. R. Robertson, J. Opt. Soc.
 * Am. 58, 1528 (1968): fast enough to colour lamps with.
 */
export function planckianUv(mired: number): [number, number] {
  return [LOCUS_U(mired), LOCUS_V(mired)];
}

/** D65 of sRGB: u′, v′ and its own place by the locus, which casts are measured from. */
export const WHITE_XYZ: Xyz = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];

const SRGB_TO_XYZ = primariesMatrix();

function primariesMatrix(): number[][] {
  const columns = [
    [0.64, 0.33],
    [0.3, 0.6],
    [0.15, 0.06],
  ].map(([x, y]) => [x! / y!, 1, (1 - x! - y!) / y!]);
  const rows = [0, 1, 2].map((row) => columns.map((column) => column[row]!));
  const scale = solve3(rows, WHITE_XYZ);
  return rows.map((row) => row.map((value, column) => value * scale[column]!));
}

/** Cramer's rule. */
function solve3(m: readonly (readonly number[])[], right: readonly number[]): [number, number, number] {
  const determinant = (a: readonly (readonly number[])[]) =>
    a[0]![0]! * (a[1]![1]! * a[2]![2]! - a[1]![2]! * a[2]![1]!) -
    a[0]![1]! * (a[1]![0]! * a[2]![2]! - a[1]![2]! * a[2]![0]!) +
    a[0]![2]! * (a[1]![0]! * a[2]![1]! - a[1]![1]! * a[2]![0]!);
  const whole = determinant(m);
  const part = (column: number) =>
    determinant(m.map((row, i) => row.map((value, j) => (j === column ? right[i]! : value)))) / whole;
  return [part(0), part(1), part(2)];
}

const ROBERTSON = readFileSync(new URL('../published/robertson-isotemperature.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').map(Number));

const LOCUS_U = naturalSpline(
  ROBERTSON.map((row) => row[0]!),
  ROBERTSON.map((row) => row[1]!),
);
const LOCUS_V = naturalSpline(
  ROBERTSON.map((row) => row[0]!),
  ROBERTSON.map((row) => row[2]!),
);

/** Natural cubic spline; second derivatives by the tridiagonal sweep. */
function naturalSpline(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  const n = xs.length;
  const bend = new Array<number>(n).fill(0);
  const carry = new Array<number>(n).fill(0);
  for (let i = 1; i < n - 1; i++) {
    const ratio = (xs[i]! - xs[i - 1]!) / (xs[i + 1]! - xs[i - 1]!);
    const pivot = ratio * bend[i - 1]! + 2;
    bend[i] = (ratio - 1) / pivot;
    const change =
      (ys[i + 1]! - ys[i]!) / (xs[i + 1]! - xs[i]!) - (ys[i]! - ys[i - 1]!) / (xs[i]! - xs[i - 1]!);
    carry[i] = ((6 * change) / (xs[i + 1]! - xs[i - 1]!) - ratio * carry[i - 1]!) / pivot;
  }
  for (let i = n - 2; i >= 0; i--) bend[i] = bend[i]! * bend[i + 1]! + carry[i]!;
  return (x) => {
    let i = 0;
    while (i < n - 2 && x > xs[i + 1]!) i++;
    const h = xs[i + 1]! - xs[i]!;
    const a = (xs[i + 1]! - x) / h;
    const b = 1 - a;
    return (
      a * ys[i]! + b * ys[i + 1]! + (((a ** 3 - a) * bend[i]! + (b ** 3 - b) * bend[i + 1]!) * h * h) / 6
    );
  };
}
