import { dot, type LampRays, rayLight, unit } from './lamp-rays.ts';
import type { Background, StudioSet } from './studio-set.ts';

type Vector = readonly [number, number, number];

/** Light that the camera sees at a place of the frame, mm about its middle, from one lamp. */
export type SeenLight = (xMm: number, yMm: number) => number;

/** Sums one lamp's rays as the background sends them to the camera. */
export function seenLight(set: StudioSet, rays: LampRays): SeenLight {
  const { background } = set;
  const camera: Vector = [set.cameraRightMm ?? 0, 0, set.cameraDistanceMm];
  if (background.kind === 'sheet') return throughSheet(background, rays, camera);
  return (xMm, yMm) => {
    const { spot, normal } = surfaceSeen(background, camera, xMm, yMm);
    let sum = 0;
    for (const point of rays.points) sum += rayLight(rays, point, spot, normal).light;
    return sum; // an even (Lambertian) wall looks alike from everywhere
  };
}

function throughSheet(
  { forwardShare, lobeDeg }: Extract<Background, { kind: 'sheet' }>,
  rays: LampRays,
  camera: Vector,
): SeenLight {
  const lobe = (lobeDeg * Math.PI) / 180;
  // against an even sheet of the same transmission, whose radiance is light / π
  const lobePeak = Math.PI / (2 * Math.PI * lobe * lobe);
  return (xMm, yMm) => {
    const spot: Vector = [xMm, yMm, 0];
    const sight = unit([camera[0] - xMm, camera[1] - yMm, camera[2]]);
    let sum = 0;
    for (const point of rays.points) {
      const { light, direction } = rayLight(rays, point, spot, [0, 0, -1]);
      const off = Math.acos(Math.min(1, dot(direction, sight)));
      const ahead = lobePeak * Math.exp((-off * off) / (2 * lobe * lobe));
      sum += light * (1 - forwardShare + forwardShare * ahead);
    }
    return sum;
  };
}

/** Where the camera's line of sight through a place of the frame's plane meets the background, and its normal there. */
export function surfaceSeen(
  background: Background,
  camera: Vector,
  xMm: number,
  yMm: number,
): { readonly spot: Vector; readonly normal: Vector } {
  if (background.kind !== 'sweep' || yMm <= background.curvesAtYMm)
    return { spot: [xMm, yMm, 0], normal: [0, 0, 1] };
  const { curvesAtYMm, radiusMm } = background;
  // along the line of sight: share 0 is the frame's plane, 1 the camera; the first crossing from the plane forwards
  const at = (share: number): Vector => [
    xMm + share * (camera[0] - xMm),
    yMm + share * (camera[1] - yMm),
    share * camera[2],
  ];
  const behind = (share: number) => {
    const [, y, z] = at(share);
    const down = y - curvesAtYMm;
    if (down <= 0) return z < 0;
    if (z >= radiusMm) return down > radiusMm;
    return Math.hypot(down, z - radiusMm) > radiusMm;
  };
  let [inside, outside] = [0, 1];
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (inside + outside);
    if (behind(middle)) inside = middle;
    else outside = middle;
  }
  const spot = at(outside);
  if (spot[2] >= radiusMm) return { spot, normal: [0, -1, 0] };
  return { spot, normal: unit([0, curvesAtYMm - spot[1], radiusMm - spot[2]]) };
}
