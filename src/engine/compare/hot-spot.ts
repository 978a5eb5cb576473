import type { Reading } from '../reading.ts';

/** How far the middle of the hottest spot stands over what lies round it. */
export interface HotSpot {
  readonly ev: number;
  readonly plusMinusEv: number;
}

/**
 * The spot and the ring round it, in lengths of the frame's longer side: a twentieth about the brightest cell, and from an
 * eighth to a quarter away from it. Own choice: a lamp seen through its sheet is narrower than the ring is wide, and a
 * falloff that reaches across the frame hardly differs between the two.
 */
const SPOT = 0.05;
const RING = [0.125, 0.25] as const;
/** Of the ring, what has to lie in the part that was read and be measured. */
const LEAST_OF_RING = 0.4;

/**
 * Mean stops of the hottest spot over the mean of the ring round it: what tells a sheet that hides its light from one that
 * lets it shine through. `null` where clipping hides the spot, or too little of its surroundings was read. Its ± is that
 * of one cell, which the means of many stay within.
 */
export function hotSpot({ frame, region, grid, falloff }: Reading): HotSpot | null {
  if (falloff.isLowerBound) return null;
  const aspect = frame.heightPx / frame.widthPx;
  const longer = Math.max(1, aspect);
  const [cellWide, cellHigh] = [
    (region.right - region.left) / grid.columns,
    ((region.bottom - region.top) / grid.rows) * aspect,
  ];
  const spot = { sum: 0, cells: 0 };
  const ring = { sum: 0, cells: 0 };
  falloff.evMap.forEach((ev, i) => {
    if (ev === null) return;
    const right = region.left + ((i % grid.columns) + 0.5) * cellWide - falloff.brightestAt.x;
    const down =
      region.top * aspect + (Math.floor(i / grid.columns) + 0.5) * cellHigh - falloff.brightestAt.y * aspect;
    const away = Math.hypot(right, down) / longer;
    const within = away <= SPOT ? spot : away >= RING[0] && away <= RING[1] ? ring : null;
    if (within === null) return;
    within.sum += ev;
    within.cells++;
  });
  const whole = (Math.PI * (RING[1] ** 2 - RING[0] ** 2) * longer ** 2) / (cellWide * cellHigh);
  if (spot.cells === 0 || ring.cells < LEAST_OF_RING * whole) return null;
  return { ev: spot.sum / spot.cells - ring.sum / ring.cells, plusMinusEv: falloff.cellPlusMinusEv };
}
