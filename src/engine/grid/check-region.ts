import type { FrameRectangle } from '../reading.ts';

/**
 * @throws RangeError where a region's edges are not finite, lie outside 0 to 1, or stand in the wrong order.
 */
export function checkRegion({ left, top, right, bottom }: FrameRectangle): void {
  const isInside = [left, top, right, bottom].every(
    (edge) => Number.isFinite(edge) && edge >= 0 && edge <= 1,
  );
  if (!isInside || !(left < right) || !(top < bottom)) {
    throw new RangeError(
      `a region needs 0 ≤ left < right ≤ 1 and 0 ≤ top < bottom ≤ 1, not left ${left}, top ${top}, right ${right}, bottom ${bottom}`,
    );
  }
}
