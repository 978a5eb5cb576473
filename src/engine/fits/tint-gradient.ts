import type { RegionGeometry } from '../maps/cell-plane.ts';
import type { FrameFigures } from '../maps/frame-figures.ts';
import { type Matrix3, transformVector3 } from '../numeric/matrix3.ts';
import { type Ramp, rampAlong } from './ramp.ts';

/** Slopes of u′ and v′ at the centre of the planes through log2 light, per frame width. */
function chromaticitySlopes(figures: FrameFigures, toXyz: Matrix3) {
  const { red, green, blue } = figures;
  const centre = [2 ** red.atCentre, 2 ** green.atCentre, 2 ** blue.atCentre] as const;
  const [x, y, z] = transformVector3(toXyz, centre);
  const sum = x + 15 * y + 3 * z;
  const along = (slopes: readonly [number, number, number]) => {
    const [dx, dy, dz] = transformVector3(toXyz, [
      Math.LN2 * centre[0] * slopes[0],
      Math.LN2 * centre[1] * slopes[1],
      Math.LN2 * centre[2] * slopes[2],
    ]);
    const change = dx + 15 * dy + 3 * dz;
    return { u: (4 * (dx * sum - x * change)) / sum ** 2, v: (9 * (dy * sum - y * change)) / sum ** 2 };
  };
  return {
    right: along([red.right, green.right, blue.right]),
    down: along([red.down, green.down, blue.down]),
  };
}

/**
 * The steepest change of colour over the region, towards its warmer end: the direction in which u′v′ moves furthest
 * (the leading right singular vector of its two slopes).
 */
export function tintGradient(figures: FrameFigures, geometry: RegionGeometry, toXyz: Matrix3): Ramp {
  const { right, down } = chromaticitySlopes(figures, toXyz);
  const a = right.u ** 2 + right.v ** 2;
  const b = right.u * down.u + right.v * down.v;
  const c = down.u ** 2 + down.v ** 2;
  const angle = 0.5 * Math.atan2(2 * b, a - c);
  const ramp = rampAlong(Math.cos(angle), Math.sin(angle), figures, geometry, toXyz);
  return ramp.mired < 0 ? rampAlong(-Math.cos(angle), -Math.sin(angle), figures, geometry, toXyz) : ramp;
}
