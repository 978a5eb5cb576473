import { linePath } from './line-path.ts';
import type { FoundSpill } from './plan-input.ts';
import type { PlanMark } from './plan-outlines.ts';
import { componentSeen, type PlanProjection, type SetPoint, stepFrom } from './plan-projection.ts';
import type { PlotPoint } from './plot-line.ts';

/** In drawing units: how far a stroke runs in and how far it falls, and how far apart strokes are. */
const IN = 26;
const FALL = 16;
const APART = 8;
const STROKES = 3;
/** How far off the arrow of a move against the spill the first one lies, and how far outside the frame they end. */
const BESIDE_ARROW = 14;
const OUTSIDE = 10;

/**
 * Light that spills in from the side that this view shows, as short parallel strokes beside that end of the frame;
 * on both sides where it comes from no one side. `null` where it comes across the view.
 */
export function planSpill(
  spill: FoundSpill | null,
  frameAlong: number,
  projection: PlanProjection,
): PlanMark | null {
  if (spill === null) return null;
  const side = Math.sign(componentSeen(spill.fromDeg, projection.seenFrom));
  const sides = spill.fromDeg === null ? [-1, 1] : side === 0 ? [] : [side];
  if (sides.length === 0) return null;
  const strokes = sides.flatMap((each) => strokesAt(each, frameAlong, projection));
  return { path: linePath(strokes), at: strokes.at(-1)![0] };
}

/** From the camera's side, where the room is; clear of the frame's end, where a move against the spill points. */
function strokesAt(side: number, frameAlong: number, projection: PlanProjection): [PlotPoint, PlotPoint][] {
  const edge: SetPoint = [(side * frameAlong) / 2, 0];
  const length = Math.hypot(IN, FALL);
  return Array.from({ length: STROKES }, (_, i) => {
    const off = BESIDE_ARROW + APART * i;
    const end = stepFrom(
      projection.place(edge),
      projection,
      [side * (OUTSIDE - (off * FALL) / length), (-off * IN) / length - 4],
      1,
    );
    return [stepFrom(end, projection, [side * IN, -FALL], 1), end];
  });
}
