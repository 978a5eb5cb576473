import type { FramePoint, FrameRectangle } from '../reading.ts';
import { acrossRegion, downRegion, type SurfaceBasis } from './surface-basis.ts';

/** Powers of the squared distance that a radial surface is made of: 0 to 3. */
export const RADIAL_TERMS = 4;

/**
 * How p and q scale to square pixels so that no corner of the region lies farther than 1 from a centre (p, q).
 * The region's half diagonal is 1 before the centre's own distance from the middle is added.
 */
export function radialScaleAbout(regionAspect: number, centreP: number, centreQ: number) {
  const diagonal = Math.hypot(1, regionAspect);
  const reach = 1 + Math.hypot(centreP * regionAspect, centreQ) / diagonal;
  return { alongP: regionAspect / diagonal / reach, alongQ: 1 / diagonal / reach };
}

/** 1, s, s², s³ with s the squared distance from the centre, in square pixels. */
export function radialBasis(region: FrameRectangle, regionAspect: number, centre: FramePoint): SurfaceBasis {
  const centreP = acrossRegion(centre.x, region);
  const centreQ = downRegion(centre.y, region);
  const { alongP, alongQ } = radialScaleAbout(regionAspect, centreP, centreQ);
  return {
    size: RADIAL_TERMS,
    halfBandwidth: RADIAL_TERMS - 1,
    runs: 1,
    runLength: RADIAL_TERMS,
    runStride: RADIAL_TERMS,
    write(x, y, values, offset) {
      const u = (acrossRegion(x, region) - centreP) * alongP;
      const v = (downRegion(y, region) - centreQ) * alongQ;
      const s = u * u + v * v;
      let power = 1;
      for (let term = 0; term < RADIAL_TERMS; term++) {
        values[offset + term] = power;
        power *= s;
      }
      return 0;
    },
  };
}
