import { cellCentre } from '../numeric/cell-centre.ts';
import type { FrameRectangle, Measurement } from '../reading.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/** A crop under this share of the largest that the region holds is no advice to give. Own choice. */
const LEAST_PART = 1 / 4;

/**
 * Crops to the part that is even enough, where the frame is not and such a part exists; brings what that leaves out,
 * `null` where clipping hides how much the whole frame falls off.
 */
export function frameTighter({ measurement, within, verdict }: MovesInput): Move | null {
  const { crop } = within;
  const { falloff, region } = measurement;
  if (crop === null || verdict.even === 'yes' || isWhole(crop, region) || isTooSmall(crop, region))
    return null;
  return {
    kind: 'frame-tighter',
    left: crop.left,
    top: crop.top,
    right: crop.right,
    bottom: crop.bottom,
    bringsEv: falloff.isLowerBound ? null : falloff.spreadEv - spreadInside(measurement, crop),
    toward: null,
    caution: null,
  };
}

function isWhole(crop: FrameRectangle, region: FrameRectangle): boolean {
  return widthOf(crop) >= widthOf(region) && heightOf(crop) >= heightOf(region);
}

function isTooSmall(crop: FrameRectangle, region: FrameRectangle): boolean {
  return widthOf(crop) < LEAST_PART * Math.min(widthOf(region), heightOf(region));
}

const widthOf = ({ left, right }: FrameRectangle) => right - left;
const heightOf = ({ top, bottom }: FrameRectangle) => bottom - top;

/** Range of the cells whose centres lie in the crop. */
function spreadInside({ falloff, grid, region }: Measurement, crop: FrameRectangle): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  falloff.evMap.forEach((ev, cell) => {
    const { x, y } = cellCentre({ ...grid, region }, cell);
    if (ev === null || x < crop.left || x > crop.right || y < crop.top || y > crop.bottom) return;
    low = Math.min(low, ev);
    high = Math.max(high, ev);
  });
  return high - low;
}
