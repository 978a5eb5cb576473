import { facePoints } from './face-points.ts';
import type { SetLight } from './lit-set.ts';

/** What one point of a light's face throws at a spot of the plane, with the way from the point to the spot. */
export type Thrown = (
  light: number,
  towardX: number,
  towardY: number,
  towardPlane: number,
  length: number,
) => void;

/** Of 1 − cos of the edge's angle: within it the edge takes less than a thousandth of any beam that has one. */
const WELL_INSIDE = 0.1;

/**
 * Light of one lamp on the background plane, point by point of its face: strength × cosᵐ(angle to its axis), less at
 * the beam's edge (own formula: in 1 − cos of that angle, so that it is smooth about the axis) ×
 * cos(incidence) ÷ distance² (inverse square and the cosine law; a Lambertian face is m = 1). The sum of what is
 * told is the illuminance; a spot behind the light's face gets nothing.
 */
export function lightThrown(light: SetLight): (x: number, y: number, tell: Thrown) => void {
  const { x: lightX, y: lightY, distance, beamPower, beamEdge } = light;
  const edge = beamEdge === null ? Number.POSITIVE_INFINITY : 1 - Math.cos(beamEdge.angleRad);
  const steepness = beamEdge?.steepness ?? 1;
  const strength = 2 ** light.strengthEv;
  const [axisX, axisY, axisZ] = unit(light.aimX - lightX, light.aimY - lightY, distance);
  // across the axis: level, and the third that is square to both
  const levelLength = Math.hypot(axisX, axisZ);
  const [acrossX, acrossZ] = [axisZ / levelLength, -axisX / levelLength];
  const [alongX, alongY, alongZ] = [axisY * acrossZ, levelLength, -axisY * acrossX];
  const points = facePoints(light.face, distance).map(([right, down, share]) => ({
    x: lightX + right * acrossX + down * alongX,
    y: lightY + down * alongY,
    z: right * acrossZ + down * alongZ,
    share: share * strength,
  }));
  return (x, y, tell) => {
    for (const point of points) {
      const toX = x - point.x;
      const toY = y - point.y;
      const toPlane = distance - point.z;
      if (toPlane <= 0) continue;
      const square = toX * toX + toY * toY + toPlane * toPlane;
      const length = Math.sqrt(square);
      const cosine = (toX * axisX + toY * axisY + toPlane * axisZ) / length;
      if (cosine <= 0) continue;
      const power = beamPower === 0 ? 1 : beamPower === 1 ? cosine : cosine ** beamPower;
      const toEdge = (1 - cosine) / edge;
      const beam = toEdge < WELL_INSIDE ? power : power / (1 + toEdge ** steepness);
      tell((point.share * beam * toPlane) / (length * square), toX, toY, toPlane, length);
    }
  };
}

function unit(x: number, y: number, z: number): [number, number, number] {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
}
