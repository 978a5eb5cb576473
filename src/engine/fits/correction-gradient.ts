import type { RegionGeometry } from '../maps/cell-plane.ts';
import type { FrameFigures } from '../maps/frame-figures.ts';
import type { Matrix3 } from '../numeric/matrix3.ts';
import { type Ramp, rampAlong } from './ramp.ts';

/** The correction gradient: the ramp along the steepest rise of the plane through log2 luminance. */
export function correctionGradient(figures: FrameFigures, geometry: RegionGeometry, toXyz: Matrix3): Ramp {
  return rampAlong(figures.level.right, figures.level.down, figures, geometry, toXyz);
}
