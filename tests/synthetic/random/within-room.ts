import type { Setup } from '../../../src/engine/setup.ts';
import { cross, unit } from '../studio/lamp-rays.ts';
import type { StudioLamp, StudioSet } from '../studio/studio-set.ts';

type Vector = readonly [number, number, number];

/**
 * Whether the middle of every light stands where a light can go: no farther to any side of the background's middle
 * than the room says, no farther from sheet or wall than its reach. A side of which nothing is known bounds nothing.
 */
export function staysInRoom({ lamps }: Pick<StudioSet, 'lamps'>, room: Setup['room']): boolean {
  const fits = (wayMm: number, mostMm: number | null) => mostMm === null || wayMm <= mostMm;
  return lamps.every(
    ({ xMm, yMm, distanceMm }) =>
      distanceMm > 0 &&
      fits(distanceMm, room.reachMm) &&
      fits(-xMm, room.leftMm) &&
      fits(xMm, room.rightMm) &&
      fits(-yMm, room.upMm) &&
      fits(yMm, room.downMm),
  );
}

/** The set with every light that would stand beyond a wall stopped by it; aims stay. */
export function keptInRoom<Set extends Pick<StudioSet, 'lamps'>>(set: Set, room: Setup['room']): Set {
  const held = (mm: number, least: number | null, most: number | null) =>
    Math.max(least ?? Number.NEGATIVE_INFINITY, Math.min(most ?? Number.POSITIVE_INFINITY, mm));
  const minus = (mm: number | null) => (mm === null ? null : -mm);
  return {
    ...set,
    lamps: set.lamps.map((lamp) => ({
      ...lamp,
      xMm: held(lamp.xMm, minus(room.leftMm), room.rightMm),
      yMm: held(lamp.yMm, minus(room.upMm), room.downMm),
      distanceMm: held(lamp.distanceMm, null, room.reachMm),
    })),
  };
}

/**
 * Whether any of a light's face, seen from whichever side, lies in the pyramid between the lens and the frame on the
 * background. A light behind a sheet never does: the sheet hides it. What only touches the pyramid is not in shot.
 */
export function isInShot(set: StudioSet, lamp: StudioLamp): boolean {
  if (set.background.kind === 'sheet') return false;
  const { cameraDistanceMm: distance, frameWidthMm, frameHeightMm, cameraRightMm = 0 } = set;
  // each is over 0 inside, and changes evenly along any straight line
  const inside: readonly ((spot: Vector) => number)[] = [
    ([, , z]) => z,
    ([, , z]) => distance - z,
    ([x, , z]) => 0.5 * frameWidthMm * (1 - z / distance) - (x - cameraRightMm),
    ([x, , z]) => 0.5 * frameWidthMm * (1 - z / distance) + (x - cameraRightMm),
    ([, y, z]) => 0.5 * frameHeightMm * (1 - z / distance) - y,
    ([, y, z]) => 0.5 * frameHeightMm * (1 - z / distance) + y,
  ];
  return areaOf(inside.reduce(cutOff, outline(lamp))) > LEAST_AREA_MM2;
}

/** What rounding leaves of a face that only touches. */
const LEAST_AREA_MM2 = 1e-6;

/** Corners of a disc's outline: drawn round it, 0.12 % too large at most. */
const DISC_CORNERS = 64;

/** A face's corners, in order. */
function outline({ xMm, yMm, distanceMm, aimXMm, aimYMm, face }: StudioLamp): readonly Vector[] {
  const axis = unit([aimXMm - xMm, aimYMm - yMm, -distanceMm]);
  const across = unit(cross([0, 1, 0], axis));
  const along = cross(axis, across);
  const at = (right: number, down: number): Vector => [
    xMm + right * across[0] + down * along[0],
    yMm + right * across[1] + down * along[1],
    distanceMm + right * across[2] + down * along[2],
  ];
  if (face.kind === 'rectangle') {
    const [right, down] = [0.5 * face.widthMm, 0.5 * face.heightMm];
    return [at(right, down), at(-right, down), at(-right, -down), at(right, -down)];
  }
  const radius = (0.5 * face.diameterMm) / Math.cos(Math.PI / DISC_CORNERS);
  return Array.from({ length: DISC_CORNERS }, (_, i) => {
    const angle = (2 * Math.PI * i) / DISC_CORNERS;
    return at(radius * Math.cos(angle), radius * Math.sin(angle));
  });
}

/** The part of a flat outline that lies on the inner side of a plane (Sutherland and Hodgman 1974). */
function cutOff(corners: readonly Vector[], inside: (spot: Vector) => number): readonly Vector[] {
  return corners.flatMap((corner, i) => {
    const next = corners[(i + 1) % corners.length]!;
    const [here, there] = [inside(corner), inside(next)];
    const kept = here >= 0 ? [corner] : [];
    if (here >= 0 === there >= 0) return kept;
    const share = here / (here - there);
    const crossing = corner.map((from, axis) => from + share * (next[axis]! - from));
    return [...kept, crossing as unknown as Vector];
  });
}

function areaOf(corners: readonly Vector[]): number {
  const [first, ...others] = corners;
  if (first === undefined) return 0;
  const sides = others.map(([x, y, z]): Vector => [x - first[0], y - first[1], z - first[2]]);
  const sum = sides.slice(1).reduce<Vector>(
    (total, side, i) => {
      const part = cross(sides[i]!, side);
      return [total[0] + part[0], total[1] + part[1], total[2] + part[2]];
    },
    [0, 0, 0],
  );
  return 0.5 * Math.hypot(...sum);
}
