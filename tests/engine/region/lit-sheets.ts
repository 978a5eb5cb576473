import type { FrameRectangle } from '../../../src/engine/reading.ts';
import type { KnownField } from '../../synthetic/known-field.ts';

/**
 * Distance inward from a convex outline, under 0 outside. Square-pixel coordinates from the frame's top left, in frame
 * widths; exact inside, which is where it is used.
 */
export type Outline = (x: number, y: number) => number;

export function tiltedSheet(
  centreX: number,
  centreY: number,
  width: number,
  height: number,
  tiltDeg: number,
): Outline {
  const [c, s] = [Math.cos((tiltDeg * Math.PI) / 180), Math.sin((tiltDeg * Math.PI) / 180)];
  return (x, y) => {
    const [dx, dy] = [x - centreX, y - centreY];
    return Math.min(width / 2 - Math.abs(c * dx + s * dy), height / 2 - Math.abs(c * dy - s * dx));
  };
}

export function roundSheet(centreX: number, centreY: number, radius: number): Outline {
  return (x, y) => radius - Math.hypot(x - centreX, y - centreY);
}

/** Everything on the side of a line that its normal, `towardDeg` clockwise from the right, points away from. */
export function halfFrame(throughX: number, throughY: number, towardDeg: number): Outline {
  const [c, s] = [Math.cos((towardDeg * Math.PI) / 180), Math.sin((towardDeg * Math.PI) / 180)];
  return (x, y) => -(c * (x - throughX) + s * (y - throughY));
}

export interface Scene {
  readonly outline: Outline;
  readonly sheet: KnownField;
  readonly surroundings: KnownField;
  /** Half the width over which the edge is out of focus, in frame widths; a sharp edge where left out. */
  readonly softness?: number;
  /** Height of the frame in frame widths. */
  readonly tall?: number;
}

export const TALL = 2 / 3;
const SHARP = 0.5 / 1200; // half a pixel of the largest frame in the tests

/** The light of a sheet and of what surrounds it, blended over the edge. */
export function lightOfScene({
  outline,
  sheet,
  surroundings,
  softness = SHARP,
  tall = TALL,
}: Scene): KnownField {
  return (x, y) => {
    const across = Math.max(-1, Math.min(1, outline(x, y * tall) / softness));
    if (across === 1) return sheet(x, y);
    const share = 0.5 + 0.5 * Math.sin((across * Math.PI) / 2);
    const [lit, round] = [sheet(x, y), surroundings(x, y)];
    return [0, 1, 2].map((i) => lit[i]! * share + round[i]! * (1 - share)) as [number, number, number];
  };
}

/** Least distance of a rectangle's corners from where the edge begins, in frame widths; over 0 inside. */
export function clearance(region: FrameRectangle, { outline, softness = 0, tall = TALL }: Scene): number {
  const corners = [region.left, region.right].flatMap((x) =>
    [region.top, region.bottom].map((y) => [x, y * tall]),
  );
  // where a side is the frame's own, the sheet may go on beyond it
  return Math.min(...corners.map(([x, y]) => outline(x!, y!))) - softness;
}

/**
 * Area, as a share of the frame, of the largest upright rectangle inside the frame and the convex outline: it is inside
 * where its left and right sides are, so every pair of columns is tried.
 */
export function largestInscribedShare({ outline, softness = 0, tall = TALL }: Scene): number {
  const columns = 240;
  const steps = 960;
  const spans = Array.from({ length: columns + 1 }, (_, column) => {
    let [top, bottom] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let step = 0; step <= steps; step++) {
      const y = (step / steps) * tall;
      if (outline(column / columns, y) < softness) continue;
      top = Math.min(top, y);
      bottom = y;
    }
    return { top, bottom };
  });
  let largest = 0;
  for (let left = 0; left <= columns; left++) {
    for (let right = left + 1; right <= columns; right++) {
      const height =
        Math.min(spans[left]!.bottom, spans[right]!.bottom) - Math.max(spans[left]!.top, spans[right]!.top);
      largest = Math.max(largest, ((right - left) / columns) * (height / tall));
    }
  }
  return largest;
}
