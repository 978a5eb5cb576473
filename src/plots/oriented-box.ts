import type { PlotPoint } from './plot-line.ts';

/** A rectangle turned about its middle; the angle in degrees clockwise, as SVG turns. */
export interface OrientedBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly angleDeg: number;
}

export function cornersOf({ x, y, width, height, angleDeg }: OrientedBox): readonly PlotPoint[] {
  const cos = Math.cos((angleDeg * Math.PI) / 180);
  const sin = Math.sin((angleDeg * Math.PI) / 180);
  const corner = (across: number, down: number): PlotPoint => [
    x + (across * width * cos - down * height * sin) / 2,
    y + (across * width * sin + down * height * cos) / 2,
  ];
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
}

/** Whether two boxes overlap, by the separating-axis theorem; touching is not overlapping. */
export function boxesOverlap(a: OrientedBox, b: OrientedBox): boolean {
  const cornersA = cornersOf(a);
  const cornersB = cornersOf(b);
  for (const angle of [a.angleDeg, a.angleDeg + 90, b.angleDeg, b.angleDeg + 90]) {
    const cos = Math.cos((angle * Math.PI) / 180);
    const sin = Math.sin((angle * Math.PI) / 180);
    const along = (corners: readonly PlotPoint[]) => corners.map(([x, y]) => x * cos + y * sin);
    const spanA = along(cornersA);
    const spanB = along(cornersB);
    if (Math.max(...spanA) <= Math.min(...spanB) || Math.max(...spanB) <= Math.min(...spanA)) return false;
  }
  return true;
}

/** Whether any of the points lies inside the box. */
export function boxHoldsAny(
  { x, y, width, height, angleDeg }: OrientedBox,
  points: readonly PlotPoint[],
): boolean {
  const cos = Math.cos((angleDeg * Math.PI) / 180);
  const sin = Math.sin((angleDeg * Math.PI) / 180);
  const reach = (width + height) / 2;
  for (const [px, py] of points) {
    const dx = px - x;
    const dy = py - y;
    if (dx > reach || dx < -reach || dy > reach || dy < -reach) continue; // most points are far away
    if (Math.abs(dx * cos + dy * sin) < width / 2 && Math.abs(dy * cos - dx * sin) < height / 2) return true;
  }
  return false;
}
