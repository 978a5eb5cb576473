import type { Beam, StudioLamp } from './studio-set.ts';

/** A point of a lamp's face, behind or in front of the background plane z = 0, with its part of the lamp's light. */
export interface FacePoint {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly share: number;
}

/** A lamp's face as points, its axis as a unit vector, and its beam. */
export interface LampRays {
  readonly points: readonly FacePoint[];
  readonly axis: readonly [number, number, number];
  readonly intensity: (cosine: number) => number;
}

type Vector = readonly [number, number, number];

/**
 * Spreads sample points over a lamp's face: Gauss–Legendre in area from the middle outwards × evenly around for a
 * disc, Gauss–Legendre both ways for a rectangle. `side` is −1 behind the background plane, 1 in front of it.
 */
export function lampRays(lamp: StudioLamp, side: -1 | 1): LampRays {
  const centre: Vector = [lamp.xMm, lamp.yMm, side * lamp.distanceMm];
  const axis = unit([lamp.aimXMm - centre[0], lamp.aimYMm - centre[1], -centre[2]]);
  const across = unit(cross([0, 1, 0], axis));
  const along = cross(axis, across);
  const points = facePlaces(lamp).map(
    ([right, down, share]): FacePoint => ({
      x: centre[0] + right * across[0] + down * along[0],
      y: centre[1] + right * across[1] + down * along[1],
      z: centre[2] + right * across[2] + down * along[2],
      share: share * lamp.power,
    }),
  );
  return { points, axis, intensity: intensityOf(lamp.beam) };
}

/** Light that a face point's ray carries onto a surface spot of unit normal `n`, and the ray's unit direction. */
export function rayLight(
  rays: LampRays,
  point: FacePoint,
  spot: Vector,
  normal: Vector,
): { readonly light: number; readonly direction: Vector } {
  const [dx, dy, dz] = [spot[0] - point.x, spot[1] - point.y, spot[2] - point.z];
  const squareMm = dx * dx + dy * dy + dz * dz;
  const length = Math.sqrt(squareMm);
  const direction: Vector = [dx / length, dy / length, dz / length];
  const emitted = rays.intensity(dot(direction, rays.axis));
  const incidence = Math.max(0, -dot(direction, normal));
  return { light: (point.share * emitted * incidence * 1e6) / squareMm, direction };
}

function facePlaces({ face }: StudioLamp): (readonly [number, number, number])[] {
  const places: (readonly [number, number, number])[] = [];
  if (face.kind === 'rectangle') {
    for (const [a, p] of GAUSS) {
      for (const [b, q] of GAUSS)
        places.push([a * 0.5 * face.widthMm, b * 0.5 * face.heightMm, 0.25 * p * q]);
    }
    return places;
  }
  const around = 16;
  GAUSS.forEach(([a, weight], ring) => {
    const radius = 0.5 * face.diameterMm * Math.sqrt(0.5 * (a + 1));
    for (let step = 0; step < around; step++) {
      const angle = (2 * Math.PI * (step + (ring % 2) * 0.5)) / around;
      places.push([radius * Math.cos(angle), radius * Math.sin(angle), (0.5 * weight) / around]);
    }
  });
  return places;
}

function intensityOf(beam: Beam): (cosine: number) => number {
  if (beam.kind === 'cosine-power') return (cosine) => (cosine > 0 ? cosine ** beam.power : 0);
  const soft = (degrees: number) => 1 / (1 + Math.exp((degrees - beam.halfDeg) / beam.softDeg));
  const axial = soft(0);
  return (cosine) => (cosine > 0 ? soft((Math.acos(Math.min(1, cosine)) * 180) / Math.PI) / axial : 0);
}

/** Abscissae and weights on −1 to 1. Source: Abramowitz and Stegun 1964, table 25.4, n = 8. */
const HALF: readonly (readonly [number, number])[] = [
  [0.183434642495649, 0.362683783378361],
  [0.525532409916328, 0.313706645877887],
  [0.796666477413626, 0.222381034453374],
  [0.960289856497536, 0.101228536290376],
];
const GAUSS = [...HALF, ...HALF.map(([a, weight]) => [-a, weight] as const)];

export const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export function unit(v: Vector): Vector {
  const length = Math.sqrt(dot(v, v));
  return [v[0] / length, v[1] / length, v[2] / length];
}

export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
