import type { LitSet, SetLight } from '../lamps/lit-set.ts';

/** Between a light's face and the edge of the picture, in frame widths: for stand, doors and hands that err. Own choice. */
const CLEARANCE = 0.05;

/**
 * How far a light's face stays out of the picture, in frame widths, beyond its clearance; below 0 where it is in it.
 * A light behind a sheet is hidden by it. What is beyond the camera is not in its way.
 */
export function outOfShot(set: LitSet, light: SetLight): number {
  if (set.sheet !== null) return Number.POSITIVE_INFINITY;
  const { cameraDistance, aspect } = set;
  const { x, y, distance, face } = light;
  const radius = face.kind === 'disc' ? face.radius : Math.hypot(face.width, face.height) / 2;
  // the picture narrows from the background to the lens
  const narrowed = Math.max(0, 1 - distance / cameraDistance);
  const beside = Math.max(Math.abs(x) - narrowed / 2, Math.abs(y) - (aspect * narrowed) / 2);
  return Math.max(beside, distance - cameraDistance) - radius - CLEARANCE;
}
