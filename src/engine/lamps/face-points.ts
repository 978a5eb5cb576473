import type { LightFace } from './lit-set.ts';

/** Points of a face of unit size, right and down from its middle, and their shares of the light, which sum to 1. */
export interface FacePoints {
  readonly right: Float64Array;
  readonly down: Float64Array;
  readonly share: Float64Array;
}

/** Up to this radius over its distance four points of a disc are exact to 0.01 %: its middle would add nothing. */
const TINY = 0.1;
/** Up to this radius over its distance seven points of a disc are exact to 0.2 %; own measurement, in the tests. */
const SMALL = 0.35;
const MIDDLING = 0.7;
/** A face so much smaller than its distance is a point. */
const NO_SIZE = 1e-6;

// Nodes and weights of Gauss–Legendre on 0 to 1. Source: Abramowitz and Stegun, table 25.4, halved and moved.
const GAUSS_3 = [
  [0.112701665379258, 0.277777777777778],
  [0.5, 0.444444444444444],
  [0.887298334620742, 0.277777777777778],
] as const;
const GAUSS_5 = [
  [0.046910077030668, 0.118463442528095],
  [0.230765344947158, 0.239314335249683],
  [0.5, 0.284444444444444],
  [0.769234655052842, 0.239314335249683],
  [0.953089922969332, 0.118463442528095],
] as const;

type Rule = typeof GAUSS_3 | typeof GAUSS_5;
type Point = readonly [right: number, down: number, share: number];

const POINT = together([[0, 0, 1]]);
const FOUR = together(ring(Math.SQRT1_2, 4, 1, 0));
const SEVEN = together([[0, 0, 1 / 4], ...ring(Math.sqrt(2 / 3), 6, 3 / 4, 0)]);
const RINGS = together(rings(GAUSS_3, 8));
const MANY_RINGS = together(rings(GAUSS_5, 12));
const LATTICE = together(lattice(GAUSS_3));
const DENSE_LATTICE = together(lattice(GAUSS_5));

/**
 * A face as points, as many as its size over its distance asks for; a disc's unit is its radius, a rectangle's its width
 * and height. A tiny disc: four round its middle (degree 3); a small one: the middle and six round it (degree 5;
 * Abramowitz and Stegun 25.4.61); a larger one: rings at Gauss–Legendre places of the area.
 */
export function facePoints(face: LightFace, distance: number): FacePoints {
  if (face.kind === 'rectangle')
    return Math.hypot(face.width, face.height) / 2 < SMALL * distance ? LATTICE : DENSE_LATTICE;
  const { radius } = face;
  if (radius < NO_SIZE * distance) return POINT;
  if (radius <= TINY * distance) return FOUR;
  if (radius <= SMALL * distance) return SEVEN;
  return radius <= MIDDLING * distance ? RINGS : MANY_RINGS;
}

function lattice(rule: Rule): Point[] {
  return rule.flatMap(([a, p]) => rule.map(([b, q]): Point => [a - 0.5, b - 0.5, p * q]));
}

function rings(rule: Rule, around: number): Point[] {
  return rule.flatMap(([area, weight], i) => ring(Math.sqrt(area), around, weight, i % 2));
}

/** Points evenly round a ring; each second ring is turned by half a step. */
function ring(radius: number, count: number, share: number, turned: number): Point[] {
  return Array.from({ length: count }, (_, i): Point => {
    const angle = ((i + turned / 2) * 2 * Math.PI) / count;
    return [radius * Math.cos(angle), radius * Math.sin(angle), share / count];
  });
}

function together(points: readonly Point[]): FacePoints {
  return {
    right: Float64Array.from(points, ([right]) => right),
    down: Float64Array.from(points, ([, down]) => down),
    share: Float64Array.from(points, ([, , share]) => share),
  };
}
