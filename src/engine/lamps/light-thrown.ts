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

/**
 * Light of one lamp on the background plane, point by point of its face: strength × cosᵐ(angle to its axis) ×
 * cos(incidence) ÷ distance² (inverse square and the cosine law; a Lambertian face is m = 1). The sum of what is
 * told is the illuminance; a spot behind the light's face gets nothing.
 */
export function lightThrown(light: SetLight): (x: number, y: number, tell: Thrown) => void {
  const { x: lightX, y: lightY, distance, beamPower } = light;
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
      const beam = beamPower === 0 ? 1 : beamPower === 1 ? cosine : cosine ** beamPower;
      tell((point.share * beam * toPlane) / (length * square), toX, toY, toPlane, length);
    }
  };
}

function unit(x: number, y: number, z: number): [number, number, number] {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
}
