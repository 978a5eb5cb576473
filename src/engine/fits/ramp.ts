import { xyzToUvPrime } from '../colour/chromaticity.ts';
import { cctAndDuv } from '../colour/correlated-colour-temperature.ts';
import type { RegionGeometry } from '../maps/cell-plane.ts';
import type { FrameFigures } from '../maps/frame-figures.ts';
import { type Matrix3, transformVector3 } from '../numeric/matrix3.ts';
import type { FramePoint } from '../reading.ts';

/** A straight ramp over the region: the part of the falloff that one graduated correction takes out. */
export interface Ramp {
  /** Degrees clockwise from "to the right", 0 to 360, towards the brighter or warmer end. */
  readonly angleDeg: number;
  /** Range over the region's corners: stops of luminance, and distance in u′v′. */
  readonly ev: number;
  readonly deltaUv: number;
  /** Change of colour from `from` to `to`; NaN where either end has no colour temperature. */
  readonly mired: number;
  readonly duv: number;
  /** Ends of the ramp, on the line of its angle through the region's centre. */
  readonly from: FramePoint;
  readonly to: FramePoint;
}

const DEGREES = 180 / Math.PI;

/**
 * The ramp along a direction (a vector of any length, right and down in square-pixel coordinates). A straight line in
 * log2 light of each channel; its ends lie where the line through the centre reaches the level of the corners.
 */
export function rampAlong(
  right: number,
  down: number,
  figures: FrameFigures,
  geometry: RegionGeometry,
  toXyz: Matrix3,
): Ramp {
  const length = Math.hypot(right, down);
  const x = length > 0 ? right / length : 1;
  const y = length > 0 ? down / length : 0;
  const reach = Math.abs(x) * geometry.halfWidth + Math.abs(y) * geometry.halfHeight;
  const colourAt = (distance: number) => {
    const channel = (plane: { atCentre: number; right: number; down: number }) =>
      2 ** (plane.atCentre + distance * (plane.right * x + plane.down * y));
    const xyz = transformVector3(toXyz, [
      channel(figures.red),
      channel(figures.green),
      channel(figures.blue),
    ]);
    const { uPrime, vPrime } = xyzToUvPrime(...xyz);
    const warmth = cctAndDuv(uPrime, vPrime);
    return { uPrime, vPrime, mired: warmth?.mired ?? Number.NaN, duv: warmth?.duv ?? Number.NaN };
  };
  const start = colourAt(-reach);
  const end = colourAt(reach);
  const at = (distance: number): FramePoint => ({
    x: geometry.centre.x + distance * x,
    y: geometry.centre.y + (distance * y) / geometry.frameAspect,
  });
  return {
    angleDeg: (Math.atan2(y, x) * DEGREES + 360) % 360,
    ev: 2 * reach * (figures.level.right * x + figures.level.down * y),
    deltaUv: Math.hypot(end.uPrime - start.uPrime, end.vPrime - start.vPrime),
    mired: end.mired - start.mired,
    duv: end.duv - start.duv,
    from: at(-reach),
    to: at(reach),
  };
}
